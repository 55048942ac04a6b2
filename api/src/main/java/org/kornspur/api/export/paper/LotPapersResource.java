package org.kornspur.api.export.paper;

import jakarta.inject.Inject;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.Response;
import jakarta.ws.rs.core.StreamingOutput;
import java.util.List;
import org.eclipse.microprofile.openapi.annotations.Operation;
import org.eclipse.microprofile.openapi.annotations.responses.APIResponse;
import org.eclipse.microprofile.openapi.annotations.tags.Tag;
import org.kornspur.api.http.Attachment;
import org.kornspur.api.http.HeavyDocument;
import org.kornspur.api.query.recall.CountedStock;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.RequiresPermission;
import org.kornspur.api.text.Addresses;
import org.kornspur.ingest.contract.Subject;

/** Papers on lots, in the language of who asks. */
@Path(Addresses.ROOT + "/lots")
@Produces(LotPapersResource.PDF)
@Tag(name = "Papers")
public class LotPapersResource {
  static final String PDF = "application/pdf";

  @Inject DossierPaper dossiers;
  @Inject RecallPaper recalls;

  @GET
  @Path("{id}/dossier.pdf")
  @RequiresPermission(Permission.EXPORT)
  @HeavyDocument
  @Operation(
      operationId = "dossierOfLot",
      summary =
          "The dossier of a lot: verdicts, sources, both ways, every fact of it and of its ancestors",
      description =
          "The same content is enclosed as dossier.json; the PDF states SHA-256 over that file.")
  @APIResponse(responseCode = "200", description = "The dossier")
  @APIResponse(responseCode = "404", ref = "#/components/responses/Problem")
  @APIResponse(responseCode = "503", ref = "#/components/responses/Problem")
  public Response lot(@PathParam("id") String id) {
    return attached(dossiers.print(Subject.lot(id)), "dossier.pdf");
  }

  @GET
  @Path("{id}/recall-drill.pdf")
  @RequiresPermission(Permission.EXPORT)
  @HeavyDocument
  @Operation(operationId = "recallDrillPaper", summary = "The recall drill as a paper")
  @APIResponse(responseCode = "200", description = "The drill")
  @APIResponse(responseCode = "404", ref = "#/components/responses/Problem")
  @APIResponse(responseCode = "503", ref = "#/components/responses/Problem")
  public Response drill(@PathParam("id") String id, @QueryParam("stock") List<String> stock) {
    return attached(recalls.print(Subject.lot(id), CountedStock.of(stock)), "recall-drill.pdf");
  }

  static Response attached(StreamingOutput pdf, String name) {
    return Attachment.of(name, pdf, PDF);
  }
}
