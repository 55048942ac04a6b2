package org.kornspur.api.web;

import com.fasterxml.jackson.databind.ObjectMapper;
import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import jakarta.inject.Inject;
import jakarta.ws.rs.BeanParam;
import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.FormParam;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.Context;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.Response;
import jakarta.ws.rs.core.UriInfo;
import java.io.IOException;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.kornspur.api.command.fact.QuarantineDecisions;
import org.kornspur.api.http.IgnoredParameters;
import org.kornspur.api.http.QuarantineFilter;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.problem.ProblemLanguage;
import org.kornspur.api.query.QueryService;
import org.kornspur.api.query.RequestWords;
import org.kornspur.api.query.view.PageView;
import org.kornspur.api.query.view.QuarantineLine;
import org.kornspur.api.query.view.QuarantineView;
import org.kornspur.api.readmodel.QuarantineRow;
import org.kornspur.api.security.CurrentCaller;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.RequiresPermission;
import org.kornspur.api.text.Addresses;
import org.kornspur.contract.QuarantineEntry;
import org.kornspur.contract.QuarantineState;
import org.kornspur.ingest.intake.ProblemWords;

/** Refused input: why it was refused, to be mended or discarded. */
@Path("/quarantine")
@Produces(MediaType.TEXT_HTML + ";charset=UTF-8")
public class QuarantinePage {
  @Inject PageFrames pages;
  @Inject QuarantineDecisions quarantine;
  @Inject QueryService queries;
  @Inject IgnoredParameters ignored;
  @Inject CurrentCaller caller;
  @Inject ObjectMapper json;

  /** An entry of the list, with the address of its page. */
  public record Line(QuarantineLine entry, String href) {
    static Line of(QuarantineRow row, RequestWords words) {
      return new Line(
          QuarantineLine.of(row, ProblemLanguage.words(words.language())),
          Addresses.page(Addresses.ofEntry(row.entryId())));
    }
  }

  @CheckedTemplate(basePath = "web")
  static class Templates {
    static native TemplateInstance quarantine(PageFrame page, List<Line> lines, Paging paging);

    static native TemplateInstance quarantined(
        PageFrame page,
        QuarantineView entry,
        boolean mayDecide,
        String mendHref,
        String refusal,
        String reason);
  }

  @GET
  @RequiresPermission(Permission.READ_QUARANTINE)
  public String list(@BeanParam QuarantineFilter filter, @Context UriInfo uri) {
    PageView<Line> found =
        PageView.of(
            quarantine.find(filter.query(ignored.parameters())),
            row -> Line.of(row, pages.words()),
            queries.asOf());
    return pages.render(
        Templates.quarantine(
            pages.around(NavigationItem.QUARANTINE, found.asOf()),
            found.items(),
            Paging.of(found, uri)));
  }

  @GET
  @Path("{entryId}")
  @RequiresPermission(Permission.READ_QUARANTINE)
  public String entry(@PathParam("entryId") String entryId) {
    return show(entryId, "", "");
  }

  @POST
  @Path("{entryId}/replay")
  @RequiresPermission(Permission.SETTLE_QUARANTINE)
  public Response replay(@PathParam("entryId") String entryId) {
    try {
      quarantine.replay(entryId, Optional.empty());
      return back(entryId);
    } catch (ApiProblem refused) {
      return refused(entryId, refused, "");
    }
  }

  @POST
  @Path("{entryId}/discard")
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  @RequiresPermission(Permission.SETTLE_QUARANTINE)
  public Response discard(@PathParam("entryId") String entryId, @FormParam("reason") String reason)
      throws IOException {
    String given = reason == null ? "" : reason;
    try {
      quarantine.discard(
          entryId,
          json.writeValueAsString(Map.of("reason", given)).getBytes(StandardCharsets.UTF_8));
      return back(entryId);
    } catch (ApiProblem refused) {
      return refused(entryId, refused, given);
    }
  }

  private Response refused(String entryId, ApiProblem refused, String reason) {
    return Response.status(refused.document().status())
        .entity(show(entryId, refused.document().detail(words()), reason))
        .build();
  }

  private static Response back(String entryId) {
    return Response.seeOther(URI.create(Addresses.page(Addresses.ofEntry(entryId)))).build();
  }

  private ProblemWords words() {
    return ProblemLanguage.words(pages.words().language());
  }

  private String show(String entryId, String refusal, String reason) {
    QuarantineEntry kept = quarantine.entry(entryId);
    QuarantineView entry = QuarantineView.of(kept, words());
    boolean mayDecide =
        entry.state() == QuarantineState.HELD && caller.get().may(Permission.SETTLE_QUARANTINE);
    String mendHref =
        QuarantineDecisions.fact(kept)
            .flatMap(QuarantineDecisions::typeOf)
            .filter(type -> caller.get().may(Permission.toPost(type)))
            .map(type -> Addresses.mending(type, entryId))
            .orElse("");
    return pages.render(
        Templates.quarantined(
            pages.around(NavigationItem.QUARANTINE, queries.asOf()),
            entry,
            mayDecide,
            mendHref,
            refusal,
            reason));
  }
}
