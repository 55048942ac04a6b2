package org.kornspur.api.export.paper;

import jakarta.inject.Inject;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.Response;
import jakarta.ws.rs.core.StreamingOutput;
import java.io.IOException;
import java.util.List;
import org.eclipse.microprofile.openapi.annotations.Operation;
import org.eclipse.microprofile.openapi.annotations.enums.SchemaType;
import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.eclipse.microprofile.openapi.annotations.parameters.Parameter;
import org.eclipse.microprofile.openapi.annotations.responses.APIResponse;
import org.eclipse.microprofile.openapi.annotations.tags.Tag;
import org.kornspur.api.http.Attachment;
import org.kornspur.api.http.HeavyDocument;
import org.kornspur.api.http.Parameters;
import org.kornspur.api.query.recall.CountedStock;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.RequiresPermission;
import org.kornspur.api.text.Addresses;
import org.kornspur.ingest.contract.Subject;

/** Papers on lots, in the language of the caller. */
@Path(Addresses.ROOT + "/lots")
@Produces(LotPapersResource.PDF)
@Tag(name = "Papers")
public class LotPapersResource {
  static final String PDF = "application/pdf";

  @Inject DossierPaper dossiers;
  @Inject LotPaper sheets;
  @Inject RecallPaper recalls;
  @Inject LabelPaper labels;

  @GET
  @Path("{id}/dossier.pdf")
  @RequiresPermission(Permission.EXPORT)
  @HeavyDocument
  @Operation(
      operationId = "dossierOfLot",
      summary = "A lot on two pages, or with an appendix of all that they rest on",
      description =
          "Two pages: state, what is not met or owed before what is met, release and signatures,"
              + " masses, customers. With appendix=true the whole dossier: verdicts with sources,"
              + " both ways, every fact of the lot and of its ancestors. Its content is enclosed as"
              + " dossier.json; the PDF states SHA-256 over that file.")
  @APIResponse(responseCode = "200", description = "The dossier")
  public Response lot(
      @PathParam("id") String id,
      @Parameter(schema = @Schema(type = SchemaType.BOOLEAN)) @QueryParam("appendix")
          String appendix)
      throws IOException {
    Parameters parameters = new Parameters();
    boolean whole = parameters.yes("appendix", appendix);
    parameters.check();
    Subject lot = Subject.lot(id);
    return whole
        ? attached(dossiers.print(lot), "dossier.pdf")
        : Attachment.of("lot.pdf", (Object) sheets.print(lot, "dossier.pdf?appendix=true"), PDF);
  }

  @GET
  @Path("{id}/recall-drill.pdf")
  @RequiresPermission(Permission.EXPORT)
  @HeavyDocument
  @Operation(operationId = "recallDrillPaper", summary = "The recall drill as a paper")
  @APIResponse(responseCode = "200", description = "The drill")
  public Response drill(@PathParam("id") String id, @QueryParam("stock") List<String> stock) {
    return attached(recalls.print(Subject.lot(id), CountedStock.of(stock)), "recall-drill.pdf");
  }

  @GET
  @Path("{id}/labels.pdf")
  @RequiresPermission(Permission.EXPORT)
  @HeavyDocument
  @Operation(
      operationId = "labelSheet",
      summary = "Labels for the bags of a lot, eight on a page",
      description =
          "For a lot that is fit and released. Not official labels: the certification authority"
              + " issues those. What is not known here is left to be written by hand.")
  @APIResponse(responseCode = "200", description = "The sheet")
  @APIResponse(responseCode = "409", ref = "#/components/responses/Problem")
  public Response labels(
      @PathParam("id") String id,
      @Parameter(
              schema =
                  @Schema(
                      type = SchemaType.INTEGER,
                      minimum = "1",
                      maximum = "400",
                      defaultValue = "8"))
          @QueryParam("copies")
          String copies) {
    Parameters parameters = new Parameters();
    int asked = parameters.whole("copies", copies, LabelPaper.ON_A_PAGE, 1, LabelPaper.MOST_COPIES);
    parameters.check();
    return attached(labels.print(id, asked), "labels.pdf");
  }

  static Response attached(StreamingOutput pdf, String name) {
    return Attachment.of(name, pdf, PDF);
  }
}
