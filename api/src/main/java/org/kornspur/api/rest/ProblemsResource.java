package org.kornspur.api.rest;

import jakarta.inject.Inject;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.MediaType;
import java.util.Arrays;
import java.util.List;
import org.eclipse.microprofile.openapi.annotations.Operation;
import org.eclipse.microprofile.openapi.annotations.responses.APIResponse;
import org.eclipse.microprofile.openapi.annotations.tags.Tag;
import org.kornspur.api.problem.AddressDetail;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.problem.ProblemKind;
import org.kornspur.api.problem.ProblemLanguage;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.RequiresPermission;
import org.kornspur.ingest.intake.ProblemWords;

/** What each type of problem document means. */
@Path("/problems")
@Produces(MediaType.APPLICATION_JSON)
@Tag(name = "Problems")
public class ProblemsResource {

  public record KindView(String type, String title, int status, String remedy) {
    static KindView of(ProblemKind kind, ProblemWords words) {
      return new KindView(
          kind.type(), words.plain(kind.title()), kind.status(), words.plain(kind.remedy()));
    }
  }

  @Inject ProblemLanguage language;

  @GET
  @RequiresPermission(Permission.READ_INTERFACE)
  @Operation(operationId = "listProblemKinds", summary = "Every kind of problem document")
  public List<KindView> list() {
    return Arrays.stream(ProblemKind.values())
        .map(kind -> KindView.of(kind, language.words()))
        .toList();
  }

  @GET
  @RequiresPermission(Permission.READ_INTERFACE)
  @Path("{kind}")
  @Operation(operationId = "getProblemKind", summary = "What one kind means and what to do")
  @APIResponse(responseCode = "200", description = "The kind")
  public KindView get(@PathParam("kind") String kind) {
    return ProblemKind.of(kind)
        .map(known -> KindView.of(known, language.words()))
        .orElseThrow(() -> ApiProblem.notFound(new AddressDetail.NoProblemKind()));
  }
}
