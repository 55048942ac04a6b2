package org.kornspur.api.web.people;

import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import jakarta.inject.Inject;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.Context;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.UriInfo;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.kornspur.api.http.IgnoredParameters;
import org.kornspur.api.http.Parameters;
import org.kornspur.api.readmodel.ResultPage;
import org.kornspur.api.security.CurrentCaller;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.RequiresPermission;
import org.kornspur.api.security.people.JournalReading;
import org.kornspur.api.security.people.People;
import org.kornspur.api.security.visibility.SkipRedaction;
import org.kornspur.api.web.NavigationItem;
import org.kornspur.api.web.PageFrame;
import org.kornspur.api.web.PageFrames;
import org.kornspur.api.web.Paging;

/** Who may log in, and who changed that. */
@Path(PeoplePage.ROOT)
@Produces(MediaType.TEXT_HTML + ";charset=UTF-8")
public class PeoplePage {
  static final String ROOT = "/people";
  private static final int LINES = 50;

  @Inject PageFrames pages;
  @Inject People people;
  @Inject CurrentCaller caller;
  @Inject IgnoredParameters ignored;

  /**
   * The journal as it is shown.
   *
   * @param person whose changes these are; empty of all
   * @param brokenAt number of the first line that is not as it was written; empty where all are
   * @param head hash of the last line
   */
  public record Journal(
      String person, List<JournalRow> rows, Optional<Long> brokenAt, String head) {}

  @CheckedTemplate(basePath = "web/people")
  static class Templates {
    static native TemplateInstance people(
        PageFrame page, List<PersonRow> people, boolean mayManage);

    static native TemplateInstance journal(PageFrame page, Journal journal, Paging paging);
  }

  @GET
  @SkipRedaction
  @RequiresPermission(Permission.READ_PEOPLE)
  public String list() {
    return pages.render(
        Templates.people(
            pages.around(NavigationItem.PEOPLE),
            people.all().stream()
                .map(PersonRow::of)
                .sorted(
                    Comparator.comparing((PersonRow row) -> row.state() == PersonRow.State.BLOCKED)
                        .thenComparing(PersonRow::personId))
                .toList(),
            caller.get().may(Permission.MANAGE_PEOPLE)));
  }

  /**
   * @param person whose changes are wanted; all where nobody is named
   */
  @GET
  @Path("journal")
  @SkipRedaction
  @RequiresPermission(Permission.READ_PEOPLE)
  public String journal(
      @QueryParam("person") String person, @QueryParam("page") String page, @Context UriInfo uri) {
    Parameters parameters = ignored.parameters();
    Optional<String> personId = parameters.id("person", person);
    int number = parameters.page(page);
    parameters.check();
    JournalReading journal = people.journal();
    JournalRow.Words words =
        new JournalRow.Words(pages.words().texts("people"), pages.words().form());
    ResultPage<JournalRow> rows =
        ResultPage.of(journal.newestFirst(personId), number, LINES).map(words::row);
    return pages.render(
        Templates.journal(
            pages.around(NavigationItem.PEOPLE),
            new Journal(
                personId.orElse(""),
                rows.items(),
                journal.broken().map(JournalReading.Break::line),
                journal.head()),
            Paging.of(rows, uri)));
  }
}
