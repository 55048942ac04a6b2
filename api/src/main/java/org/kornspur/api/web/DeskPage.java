package org.kornspur.api.web;

import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import jakarta.inject.Inject;
import jakarta.ws.rs.BeanParam;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.Context;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.UriInfo;
import java.util.Set;
import org.eclipse.microprofile.openapi.annotations.Operation;
import org.kornspur.api.http.IgnoredParameters;
import org.kornspur.api.http.StandingFilter;
import org.kornspur.api.query.QueryService;
import org.kornspur.api.query.view.AsOf;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.RequiresPermission;
import org.kornspur.ingest.contract.Subject;

/** The quality desk: what needs quality now, worst first. */
@Path("/desk")
public class DeskPage {
  @Inject Framing framing;
  @Inject QueryService queries;
  @Inject IgnoredParameters ignored;
  @Inject Choices choices;
  @Inject Desks desks;

  @CheckedTemplate(basePath = "web")
  static class Templates {
    static native TemplateInstance desk(Frame page, Desk desk, Filters filters);
  }

  @GET
  @RequiresPermission(Permission.READ_DESK)
  @Produces(MediaType.TEXT_HTML + ";charset=UTF-8")
  @Operation(hidden = true)
  public String desk(@BeanParam StandingFilter filter, @Context UriInfo uri) {
    AsOf asOf = queries.asOf();
    Desk desk =
        desks.of(
            filter.query(Set.of(Subject.Kind.LOT, Subject.Kind.CROP), false, ignored.parameters()));
    return framing.render(
        Templates.desk(framing.around(NavigationItem.DESK, asOf), desk, choices.filters(uri)));
  }
}
