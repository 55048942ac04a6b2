package org.kornspur.api.export;

import com.fasterxml.jackson.databind.node.ObjectNode;
import jakarta.inject.Inject;
import jakarta.ws.rs.BeanParam;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.Response;
import java.time.Clock;
import java.util.List;
import org.eclipse.microprofile.openapi.annotations.Operation;
import org.eclipse.microprofile.openapi.annotations.enums.SchemaType;
import org.eclipse.microprofile.openapi.annotations.media.Content;
import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.eclipse.microprofile.openapi.annotations.parameters.Parameter;
import org.eclipse.microprofile.openapi.annotations.responses.APIResponse;
import org.eclipse.microprofile.openapi.annotations.tags.Tag;
import org.kornspur.api.export.epcis.EpcisDocuments;
import org.kornspur.api.export.epcis.EpcisEvents;
import org.kornspur.api.export.prov.ProvDocument;
import org.kornspur.api.export.spreadsheet.SpreadsheetTable;
import org.kornspur.api.http.HeavyDocument;
import org.kornspur.api.http.Parameters;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.RequiresPermission;
import org.kornspur.api.text.Addresses;
import org.kornspur.processors.dossier.Entry;

/** A lot's history in forms for others. */
@Path(Addresses.ROOT + "/lots")
@Tag(name = "Exports")
public class LotExportsResource {
  @Inject LotHistory history;
  @Inject EventSearch events;
  @Inject SiteIdentifiers site;
  @Inject SiteVocabulary vocabulary;
  private final Clock clock = Clock.systemUTC();

  @GET
  @Path("{id}/history.epcis.json")
  @Produces({EpcisResource.JSON_LD, MediaType.APPLICATION_JSON})
  @RequiresPermission(Permission.EXPORT)
  @HeavyDocument
  @Operation(
      operationId = "lotHistoryEpcis",
      summary = "The lot's history as an EPCIS 2.0 document",
      description =
          "With ancestors=true the whole way back. Wrong events bear an error declaration and stand"
              + " beside those that correct them. Each event carries its whole fact, so that the"
              + " document can be captured elsewhere without loss.")
  @APIResponse(responseCode = "200", ref = "#/components/responses/EpcisDocument")
  public Response epcis(@PathParam("id") String id, @BeanParam Ancestors ancestors) {
    List<Entry> entries = history.of(id, ancestors.areAsked());
    EpcisEvents shaper = events.events(EventSearch.near(entries));
    return Response.ok(
            vocabulary.outward(
                EpcisDocuments.document(
                    entries.stream().map(shaper::event).toList(), clock.instant())))
        .build();
  }

  @GET
  @Path("{id}/history.prov.json")
  @Produces(MediaType.APPLICATION_JSON)
  @RequiresPermission(Permission.EXPORT)
  @HeavyDocument
  @Operation(
      operationId = "lotHistoryProv",
      summary = "The lot's history as provenance in PROV-JSON")
  @APIResponse(
      responseCode = "200",
      description = "A PROV-JSON document",
      content = @Content(schema = @Schema(ref = "#/components/schemas/ProvDocument")))
  public ObjectNode prov(@PathParam("id") String id, @BeanParam Ancestors ancestors) {
    return vocabulary.outward(
        ProvDocument.of(history.of(id, ancestors.areAsked()), site.identifiers().base()));
  }

  @GET
  @Path("{id}/records.csv")
  @Produces(TableDownload.CSV)
  @RequiresPermission(Permission.EXPORT)
  @HeavyDocument
  @Operation(
      operationId = "lotRecordsCsv",
      summary = "All records of the lot as a table; no cell can become a formula")
  @APIResponse(responseCode = "200", description = "CSV after RFC 4180, in UTF-8")
  public Response csv(@PathParam("id") String id, @BeanParam Ancestors ancestors) {
    return TableDownload.csv("records", SpreadsheetTable.of(history.of(id, ancestors.areAsked())));
  }

  @GET
  @Path("{id}/records.xlsx")
  @Produces(TableDownload.XLSX)
  @RequiresPermission(Permission.EXPORT)
  @HeavyDocument
  @Operation(
      operationId = "lotRecordsXlsx",
      summary = "All records of the lot as a spreadsheet that can be sorted and filtered")
  @APIResponse(responseCode = "200", description = "Office Open XML workbook")
  public Response xlsx(@PathParam("id") String id, @BeanParam Ancestors ancestors) {
    return TableDownload.xlsx("records", SpreadsheetTable.of(history.of(id, ancestors.areAsked())));
  }

  /** Whether all that the lot came from is wanted too. */
  public static final class Ancestors {
    @Parameter(schema = @Schema(type = SchemaType.BOOLEAN, defaultValue = "false"))
    @QueryParam("ancestors")
    String ancestors;

    boolean areAsked() {
      Parameters parameters = new Parameters();
      boolean asked = parameters.yes("ancestors", ancestors);
      parameters.check();
      return asked;
    }
  }
}
