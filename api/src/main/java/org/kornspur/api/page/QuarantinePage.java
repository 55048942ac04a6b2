package org.kornspur.api.page;

import com.fasterxml.jackson.databind.ObjectMapper;
import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import jakarta.inject.Inject;
import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.FormParam;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.QueryParam;
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
import org.eclipse.microprofile.openapi.annotations.Operation;
import org.kornspur.api.access.CurrentCaller;
import org.kornspur.api.access.Permission;
import org.kornspur.api.access.RequiresPermission;
import org.kornspur.api.intake.Quarantine;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.problem.ProblemLanguage;
import org.kornspur.api.resource.Answers;
import org.kornspur.api.resource.IgnoredParameters;
import org.kornspur.api.resource.QuarantineResource;
import org.kornspur.api.view.Addresses;
import org.kornspur.api.view.PageView;
import org.kornspur.api.view.QuarantineLine;
import org.kornspur.api.view.QuarantineView;
import org.kornspur.contract.QuarantineState;
import org.kornspur.ingest.intake.ProblemWords;

/** Refused input: why it was refused, to be mended or discarded. */
@Path("/quarantine")
@Produces(MediaType.TEXT_HTML + ";charset=UTF-8")
public class QuarantinePage {
  @Inject Framing framing;
  @Inject QuarantineResource entries;
  @Inject Quarantine quarantine;
  @Inject Answers answers;
  @Inject IgnoredParameters unheeded;
  @Inject CurrentCaller caller;
  @Inject ObjectMapper json;

  /** An entry of the list. */
  public record Line(QuarantineLine entry, String href) {
    static Line of(QuarantineLine entry) {
      return new Line(entry, entry.href().substring(Addresses.ROOT.length()));
    }
  }

  @CheckedTemplate(basePath = "page")
  static class Templates {
    static native TemplateInstance quarantine(Frame page, List<Line> lines, Paging paging);

    static native TemplateInstance quarantined(
        Frame page, QuarantineView entry, boolean mayDecide, String refusal, String reason);
  }

  @GET
  @RequiresPermission(Permission.READ_QUARANTINE)
  @Operation(hidden = true)
  public String list(
      @QueryParam("state") List<String> state,
      @QueryParam("page") String page,
      @Context UriInfo uri) {
    PageView<QuarantineLine> found = entries.list(state, page, null, unheeded.parameters());
    return framing.render(
        Templates.quarantine(
            framing.around(NavigationItem.QUARANTINE, found.asOf()),
            found.items().stream().map(Line::of).toList(),
            Paging.of(found, uri)));
  }

  @GET
  @Path("{entryId}")
  @RequiresPermission(Permission.READ_QUARANTINE)
  @Operation(hidden = true)
  public String entry(@PathParam("entryId") String entryId) {
    return show(entryId, "", "");
  }

  @POST
  @Path("{entryId}/replay")
  @RequiresPermission(Permission.SETTLE_QUARANTINE)
  @Operation(hidden = true)
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
  @Operation(hidden = true)
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
    return Response.seeOther(
            URI.create(Addresses.ofEntry(entryId).substring(Addresses.ROOT.length())))
        .build();
  }

  private ProblemWords words() {
    return ProblemLanguage.words(framing.language());
  }

  private String show(String entryId, String refusal, String reason) {
    QuarantineView entry = QuarantineView.of(quarantine.entry(entryId), words());
    boolean mayDecide =
        entry.state() == QuarantineState.HELD && caller.get().may(Permission.SETTLE_QUARANTINE);
    return framing.render(
        Templates.quarantined(
            framing.around(NavigationItem.QUARANTINE, answers.asOf()),
            entry,
            mayDecide,
            refusal,
            reason));
  }
}
