package org.kornspur.api.web;

import io.quarkus.qute.TemplateInstance;
import jakarta.enterprise.context.RequestScoped;
import jakarta.inject.Inject;
import jakarta.ws.rs.core.Context;
import jakarta.ws.rs.core.UriInfo;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.kornspur.api.http.IgnoredParameters;
import org.kornspur.api.problem.ProblemLanguage;
import org.kornspur.api.query.RequestWords;
import org.kornspur.api.query.view.AsOf;
import org.kornspur.api.security.Caller;
import org.kornspur.api.security.CurrentCaller;
import org.kornspur.api.security.login.Sessions;
import org.kornspur.api.text.Language;
import org.kornspur.api.text.LocalForm;
import org.kornspur.api.text.PageTexts;
import org.kornspur.ingest.intake.Problem;
import org.kornspur.ingest.intake.ProblemWords;

/** Puts the frame around a page, in the language of who asked. */
@RequestScoped
public class Framing {
  private final RequestWords words;
  private final UriInfo uri;
  private final CurrentCaller caller;
  private final Sessions sessions;
  private final IgnoredParameters ignored;

  @Inject
  public Framing(
      RequestWords words,
      @Context UriInfo uri,
      CurrentCaller caller,
      Sessions sessions,
      IgnoredParameters ignored) {
    this.words = words;
    this.uri = uri;
    this.caller = caller;
    this.sessions = sessions;
    this.ignored = ignored;
  }

  /** The language of who asked. */
  public Language language() {
    return words.language();
  }

  /** Writes dates, numbers and units for who asked. */
  public LocalForm form() {
    return words.form();
  }

  /** The texts of this name in the language of who asked. */
  public PageTexts texts(String name) {
    return words.texts(name);
  }

  /** The frame of a page that shows data as of some moment. */
  public Frame around(NavigationItem here, AsOf asOf) {
    return frame(here, Optional.of(words.freshness(asOf)));
  }

  /** The frame of a page that shows no data. */
  public Frame around(NavigationItem here) {
    return frame(here, Optional.empty());
  }

  /** The page as text. */
  public String render(TemplateInstance page) {
    return words.render(page);
  }

  private Frame frame(NavigationItem here, Optional<String> asOf) {
    Language language = language();
    return new Frame(
        language,
        form(),
        words.terms(),
        rooms(here),
        languages(),
        asOf,
        ignored.all().stream().map(this::sentence).toList(),
        caller.ifKnown().map(Caller::printedName),
        caller
            .ifKnown()
            .filter(known -> known.proof() == Caller.Proof.SESSION)
            .map(sessions::formToken));
  }

  private String sentence(Problem wrong) {
    ProblemWords problems = ProblemLanguage.words(language());
    return texts("frame")
        .of("ignored", wrong.field(), problems.value(wrong), problems.limit(wrong));
  }

  private List<Frame.Place> rooms(NavigationItem here) {
    PageTexts messages = texts("frame");
    return Arrays.stream(NavigationItem.values())
        .filter(room -> !room.href().isEmpty())
        .filter(
            room ->
                caller
                    .ifKnown()
                    .map(known -> known.may(room.needs()))
                    .orElseGet(() -> room.needs().isOfAnybody()))
        .map(room -> new Frame.Place(room.href(), messages.of("place", room), room == here))
        .toList();
  }

  /** A path of this site as a whole address, as who asked reached it. */
  public String address(String path) {
    return uri.getBaseUri().resolve(path).toString();
  }

  private List<Frame.Choice> languages() {
    String back = URLEncoder.encode(address(), StandardCharsets.UTF_8);
    return Arrays.stream(Language.values())
        .map(
            language ->
                new Frame.Choice(
                    "/language/" + language.tag() + "?back=" + back,
                    language.tag(),
                    language.ownName(),
                    language == language()))
        .toList();
  }

  private String address() {
    String path = uri.getRequestUri().getRawPath();
    String query = uri.getRequestUri().getRawQuery();
    return query == null ? path : path + "?" + query;
  }
}
