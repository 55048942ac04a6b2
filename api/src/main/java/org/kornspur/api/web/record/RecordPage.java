package org.kornspur.api.web.record;

import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import jakarta.inject.Inject;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.MediaType;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.kornspur.api.query.StandingHeadlines;
import org.kornspur.api.security.CurrentCaller;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.RequiresPermission;
import org.kornspur.api.text.Addresses;
import org.kornspur.api.web.NavigationItem;
import org.kornspur.api.web.PageFrame;
import org.kornspur.api.web.PageFrames;
import org.kornspur.ingest.contract.Subject;

/** What may be recorded, grouped by where the work is done. */
@Path("/record")
@Produces(MediaType.TEXT_HTML + ";charset=UTF-8")
public class RecordPage {
  @Inject PageFrames pages;
  @Inject CurrentCaller caller;
  @Inject StandingHeadlines headlines;

  /** Forms of one place of work. */
  public record Group(ContractForm.Work work, List<Choice> choices) {}

  /** A form that may be filled in. */
  public record Choice(String href, String name) {}

  /**
   * What was recorded a moment ago.
   *
   * @param name of its type
   * @param nextHref form for the next of the same type
   */
  public record Recorded(String name, String factId, String nextHref) {}

  @CheckedTemplate(basePath = "web/record")
  static class Templates {
    static native TemplateInstance list(
        PageFrame page, List<Group> groups, Optional<Recorded> recorded, Optional<String> about);
  }

  @GET
  @RequiresPermission(Permission.POST_FACTS)
  public String list(
      @QueryParam("recorded") String recorded,
      @QueryParam("fact") String factId,
      @QueryParam("lot") String lot,
      @QueryParam("crop") String crop) {
    PageFrame frame = pages.around(NavigationItem.RECORD);
    Optional<Subject> about =
        Optional.ofNullable(lot)
            .filter(id -> !id.isBlank())
            .map(Subject::lot)
            .or(() -> Optional.ofNullable(crop).filter(id -> !id.isBlank()).map(Subject::crop));
    return pages.render(
        Templates.list(
            frame,
            Arrays.stream(ContractForm.Work.values())
                .map(work -> new Group(work, choices(work, about)))
                .filter(group -> !group.choices().isEmpty())
                .toList(),
            Optional.ofNullable(recorded)
                .flatMap(ContractForm::at)
                .map(
                    form ->
                        new Recorded(
                            frame.trade().fact(form.type()),
                            factId == null ? "" : factId,
                            form.href() + "?next=true")),
            about.map(headlines::name)));
  }

  private List<Choice> choices(ContractForm.Work work, Optional<Subject> about) {
    ContractFields fields =
        new ContractFields(pages.words().language(), pages.words().texts("record"));
    String known =
        about.map(one -> "?" + one.kind().word() + "=" + Addresses.part(one.id())).orElse("");
    return ContractForm.ALL.stream()
        .filter(form -> form.work() == work)
        .filter(form -> caller.get().may(Permission.toPost(form.type())))
        .filter(form -> about.isEmpty() || fields.names(form, about.get().kind()))
        .map(form -> new Choice(form.href() + known, pages.words().terms().fact(form.type())))
        .toList();
  }
}
