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
import java.util.function.UnaryOperator;
import org.eclipse.microprofile.config.inject.ConfigProperty;
import org.kornspur.api.http.IgnoredParameters;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.problem.ProblemDocument;
import org.kornspur.api.problem.ProblemLanguage;
import org.kornspur.api.query.RequestWords;
import org.kornspur.api.query.view.AsOf;
import org.kornspur.api.security.Caller;
import org.kornspur.api.security.CurrentCaller;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.login.Sessions;
import org.kornspur.api.text.Language;
import org.kornspur.api.text.PageTexts;
import org.kornspur.ingest.intake.Problem;
import org.kornspur.ingest.intake.ProblemWords;

/** Puts the frame around a page, in the language of who asked. */
@RequestScoped
public class PageFrames {
  private final UriInfo uri;

  @Inject RequestWords words;
  @Inject CurrentCaller caller;
  @Inject Sessions sessions;
  @Inject IgnoredParameters ignored;
  @Inject Navigation navigation;

  @ConfigProperty(name = "quarkus.application.version")
  String version;

  public PageFrames(@Context UriInfo uri) {
    this.uri = uri;
  }

  /** Words for who asked. */
  public RequestWords words() {
    return words;
  }

  /** The frame of a page that shows data as of some moment. */
  public PageFrame around(NavigationItem here, AsOf asOf) {
    return frame(here, Optional.of(words.freshness(asOf)));
  }

  /** The frame of a page that shows no data. */
  public PageFrame around(NavigationItem here) {
    return frame(here, Optional.empty());
  }

  /** The page as text. */
  public String render(TemplateInstance page) {
    return words.render(page);
  }

  /** All that is wrong with what was asked, each in a sentence. */
  public List<String> sentences(ApiProblem refused) {
    return sentences(refused, UnaryOperator.identity());
  }

  /**
   * The same where fields have names of their own on the page.
   *
   * @param named from the name of a field to that on the page
   */
  public List<String> sentences(ApiProblem refused, UnaryOperator<String> named) {
    ProblemDocument document = refused.document();
    ProblemWords problems = ProblemLanguage.words(words.language());
    return document.problems().isEmpty()
        ? List.of(document.detail(problems))
        : document.problems().stream()
            .map(one -> new Problem(named.apply(one.field()), one.value(), one.reason()))
            .map(problems::sentence)
            .toList();
  }

  private PageFrame frame(NavigationItem here, Optional<String> asOf) {
    List<NavigationItem> items = navigation.items();
    List<NavigationItem> row = Navigation.row(items, here);
    return new PageFrame(
        words.language(),
        words.form(),
        words.terms(),
        places(row, here),
        places(items.stream().filter(item -> !row.contains(item)).toList(), here),
        languages(),
        asOf,
        ignored.all().stream().map(this::sentence).toList(),
        caller.ifKnown().map(Caller::printedName),
        caller
            .ifKnown()
            .filter(known -> known.proof() == Caller.Proof.SESSION)
            .map(sessions::formToken),
        caller.ifKnown().filter(known -> known.may(Permission.SEARCH)).isPresent(),
        version);
  }

  private String sentence(Problem wrong) {
    ProblemWords problems = ProblemLanguage.words(words.language());
    return words
        .texts("frame")
        .of("ignored", wrong.field(), problems.value(wrong), problems.limit(wrong));
  }

  private List<PageFrame.Place> places(List<NavigationItem> items, NavigationItem here) {
    PageTexts messages = words.texts("frame");
    return items.stream()
        .map(item -> new PageFrame.Place(item.href(), messages.of("place", item), item == here))
        .toList();
  }

  /** A path of this site as a whole address, as who asked reached it. */
  public String address(String path) {
    return uri.getBaseUri().resolve(path).toString();
  }

  private List<PageFrame.Choice> languages() {
    String back = URLEncoder.encode(address(), StandardCharsets.UTF_8);
    return Arrays.stream(Language.values())
        .map(
            language ->
                new PageFrame.Choice(
                    "/language/" + language.tag() + "?back=" + back,
                    language.tag(),
                    language.ownName(),
                    language == words.language()))
        .toList();
  }

  private String address() {
    String path = uri.getRequestUri().getRawPath();
    String query = uri.getRequestUri().getRawQuery();
    return query == null ? path : path + "?" + query;
  }
}
