package org.kornspur.api.web.help;

import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import jakarta.inject.Inject;
import jakarta.ws.rs.DefaultValue;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.MediaType;
import java.time.LocalDate;
import java.util.List;
import org.kornspur.api.http.IgnoredParameters;
import org.kornspur.api.http.Parameters;
import org.kornspur.api.kafka.RulesInForce;
import org.kornspur.api.problem.AddressDetail;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.problem.RecordDetail;
import org.kornspur.api.security.CurrentCaller;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.RequiresPermission;
import org.kornspur.api.security.visibility.SkipRedaction;
import org.kornspur.api.text.Audience;
import org.kornspur.api.text.ReaderWords;
import org.kornspur.api.web.NavigationItem;
import org.kornspur.api.web.PageFrame;
import org.kornspur.api.web.PageFrames;
import org.kornspur.ingest.problem.Given;
import org.kornspur.processors.standards.Rulebook;
import org.kornspur.processors.standards.Rulebooks;

/** The manual, for everybody, without a log-in too. */
@Path(HelpTopic.ROOT)
@Produces(MediaType.TEXT_HTML + ";charset=UTF-8")
public class HelpPage {
  private static final int LONGEST_QUERY = 100;

  @Inject PageFrames pages;
  @Inject HelpTexts texts;
  @Inject RulesInForce rules;
  @Inject CurrentCaller caller;
  @Inject IgnoredParameters ignored;

  @CheckedTemplate(basePath = "web/help")
  static class Templates {
    static native TemplateInstance contents(
        PageFrame page, List<HelpText> manual, String query, List<HelpSearch.Hit> hits);

    static native TemplateInstance topic(PageFrame page, List<HelpText> manual, HelpText text);

    static native TemplateInstance rules(
        PageFrame page, List<HelpText> manual, List<String> books, RulesView sheet, String day);
  }

  /**
   * @param text words to look for in the manual
   */
  @GET
  @SkipRedaction
  @RequiresPermission(Permission.READ_HELP)
  public String contents(@DefaultValue("") @QueryParam("q") String text) {
    Parameters parameters = ignored.parameters();
    String query = parameters.text("q", text.strip(), LONGEST_QUERY).orElse("");
    parameters.check();
    return pages.render(
        Templates.contents(frame(), manual(), query, HelpSearch.find(manual(), query)));
  }

  /**
   * @param id a rulebook; the first where none is named
   */
  @GET
  @SkipRedaction
  @RequiresPermission(Permission.READ_HELP)
  @Path("rules")
  public String rules(@DefaultValue("") @QueryParam("book") String id) {
    List<Rulebook> books = books();
    Parameters parameters = ignored.parameters();
    String asked = parameters.id("book", id).orElse("");
    parameters.check();
    LocalDate today = LocalDate.now(pages.words().form().zone());
    List<String> ids = books.stream().map(Rulebook::id).toList();
    Rulebook book =
        books.stream()
            .filter(one -> asked.isEmpty() || one.id().equals(asked))
            .findFirst()
            .orElseThrow(
                () ->
                    ApiProblem.notFound(
                        new RecordDetail.NoRulebook(Given.text(asked, false), ids)));
    return pages.render(
        Templates.rules(
            frame(),
            manual(),
            ids,
            RulesView.of(
                book, today, new ReaderWords(Audience.ofEverything(pages.words().form(), today))),
            pages.words().form().day(today)));
  }

  @GET
  @SkipRedaction
  @RequiresPermission(Permission.READ_HELP)
  @Path("{topic}")
  public String topic(@PathParam("topic") String slug) {
    HelpTopic topic =
        HelpTopic.of(slug)
            .orElseThrow(
                () ->
                    ApiProblem.notFound(
                        new AddressDetail.NoResource(
                            Given.text(HelpTopic.ROOT + "/" + slug, false))));
    return pages.render(
        Templates.topic(frame(), manual(), texts.of(topic, pages.words().language())));
  }

  private PageFrame frame() {
    return pages.around(NavigationItem.HELP);
  }

  private List<HelpText> manual() {
    return texts.in(pages.words().language());
  }

  /** The rulebooks of a site itself are for its people alone. */
  private List<Rulebook> books() {
    Rulebooks known = caller.ifKnown().isPresent() ? rules.rulebooks() : Rulebooks.bundled();
    return List.copyOf(known.all());
  }
}
