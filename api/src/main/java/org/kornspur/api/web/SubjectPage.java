package org.kornspur.api.web;

import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import jakarta.inject.Inject;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.MediaType;
import java.util.List;
import org.kornspur.api.command.act.ActView;
import org.kornspur.api.command.act.VisibleActs;
import org.kornspur.api.query.QueryService;
import org.kornspur.api.query.view.StandingView;
import org.kornspur.api.security.CurrentCaller;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.RequiresPermission;
import org.kornspur.ingest.contract.Subject;

/**
 * One lot: its standing, its gates, its pedigree and its facts. The page of a crop shows the same
 * and its field besides: {@link org.kornspur.api.web.field.FieldPage}.
 */
@Path("/")
@Produces(MediaType.TEXT_HTML + ";charset=UTF-8")
public class SubjectPage {
  @Inject PageFrames pages;
  @Inject QueryService queries;
  @Inject SubjectPageAssembler pageContents;
  @Inject VisibleActs acts;
  @Inject CurrentCaller caller;

  @CheckedTemplate(basePath = "web")
  static class Templates {
    static native TemplateInstance subject(
        PageFrame page, SubjectPageView content, List<ActView> acts, boolean maySign);
  }

  @GET
  @Path("lots/{id}")
  @RequiresPermission(Permission.READ_LOTS)
  public String lot(@PathParam("id") String id) {
    Subject subject = Subject.lot(id);
    StandingView view = queries.view(subject);
    return pages.render(
        Templates.subject(
            pages.around(NavigationItem.LOTS, view.asOf()),
            pageContents.of(subject, view),
            acts.of(subject),
            caller.get().may(Permission.SIGN_ACTS)));
  }
}
