package org.kornspur.api.web;

import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import jakarta.inject.Inject;
import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.MultivaluedMap;
import jakarta.ws.rs.core.Response;
import java.io.IOException;
import java.net.URI;
import java.util.Arrays;
import java.util.List;
import org.kornspur.api.command.act.ActRequest;
import org.kornspur.api.command.act.ActSigning;
import org.kornspur.api.command.act.RecordsUnauthorizedSigning;
import org.kornspur.api.command.act.ReleaseSheetView;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.query.StandingHeadlines;
import org.kornspur.api.security.CurrentCaller;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.RequiresPermission;
import org.kornspur.api.text.Addresses;
import org.kornspur.contract.Category;
import org.kornspur.ingest.contract.Subject;

/**
 * Where a person signs for a lot, and reads exactly what is signed: the same release sheet and the
 * same act as at the interface, with the password given again.
 */
@Path("/lots/{id}/sign")
@Produces(MediaType.TEXT_HTML + ";charset=UTF-8")
public class SignPage {
  private static final List<String> FIELDS =
      List.of("kind", "reason", "meaning", "seal", "password", "toCategory", "ground", "corrects");

  @Inject PageFrames pages;
  @Inject ActSigning acts;
  @Inject CurrentCaller caller;
  @Inject ObjectMapper json;
  @Inject StandingHeadlines headlines;

  /**
   * What the page shows.
   *
   * @param href page of the lot
   * @param why the gates that make its standing
   * @param refusals why it was not signed, each in a sentence; empty at first
   * @param reason as typed before
   * @param meaning as typed before
   */
  public record SignView(
      String id,
      String href,
      ReleaseSheetView view,
      String why,
      List<String> categories,
      List<String> refusals,
      String reason,
      String meaning) {}

  @CheckedTemplate(basePath = "web")
  static class Templates {
    static native TemplateInstance sign(PageFrame page, SignView sheet);
  }

  @GET
  @RequiresPermission(Permission.SIGN_ACTS)
  public String sheet(@PathParam("id") String id) {
    return show(id, List.of(), "", "");
  }

  @POST
  @RecordsUnauthorizedSigning
  @RequiresPermission(Permission.SIGN_ACTS)
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  public Response sign(@PathParam("id") String id, MultivaluedMap<String, String> form)
      throws IOException {
    ObjectNode body = json.createObjectNode();
    FIELDS.stream()
        .filter(field -> form.containsKey(field) && !form.getFirst(field).isBlank())
        .forEach(field -> body.put(field, form.getFirst(field)));
    try {
      acts.sign(Subject.lot(id), caller.get(), ActRequest.read(json.writeValueAsBytes(body)));
      return Response.seeOther(URI.create(Addresses.pageOf(Subject.lot(id)) + "#release")).build();
    } catch (ApiProblem refused) {
      return Response.status(refused.document().status())
          .entity(
              show(
                  id,
                  pages.sentences(refused),
                  body.path("reason").asText(),
                  body.path("meaning").asText()))
          .build();
    }
  }

  private String show(String id, List<String> refusals, String reason, String meaning) {
    ReleaseSheetView view = acts.sheetFor(Subject.lot(id), caller.get().personId());
    return pages.render(
        Templates.sign(
            pages.around(NavigationItem.LOTS, view.standing().asOf()),
            new SignView(
                id,
                Addresses.pageOf(Subject.lot(id)),
                view,
                headlines.why(view.standing()),
                Arrays.stream(Category.values()).map(Enum::name).toList(),
                refusals,
                reason,
                meaning)));
  }
}
