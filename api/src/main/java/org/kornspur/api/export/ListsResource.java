package org.kornspur.api.export;

import jakarta.inject.Inject;
import jakarta.ws.rs.BeanParam;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.Response;
import java.util.List;
import java.util.Set;
import org.apache.avro.specific.SpecificRecord;
import org.eclipse.microprofile.openapi.annotations.Operation;
import org.eclipse.microprofile.openapi.annotations.media.Content;
import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.eclipse.microprofile.openapi.annotations.parameters.Parameter;
import org.eclipse.microprofile.openapi.annotations.responses.APIResponse;
import org.eclipse.microprofile.openapi.annotations.tags.Tag;
import org.kornspur.api.export.geojson.GroundFeatures;
import org.kornspur.api.export.spreadsheet.SpreadsheetTable;
import org.kornspur.api.http.Attachment;
import org.kornspur.api.http.HeavyDocument;
import org.kornspur.api.http.Parameters;
import org.kornspur.api.http.SeasonParameters;
import org.kornspur.api.http.StandingFilter;
import org.kornspur.api.problem.AddressDetail;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.problem.ProblemKind;
import org.kornspur.api.query.QueryService;
import org.kornspur.api.query.RequestWords;
import org.kornspur.api.query.season.SeasonComparison;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.RequiresPermission;
import org.kornspur.api.text.Addresses;
import org.kornspur.api.text.FieldLabels;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.problem.Given;

/** Lists of crops and lots as tables, filtered as the pages are, all of a list at once. */
@Path(Addresses.ROOT + "/lists")
@Tag(name = "Exports")
public class ListsResource {
  private static final String ZIP = "application/zip";

  @Inject QueryService queries;
  @Inject SeasonHistory seasons;
  @Inject GroundExport ground;
  @Inject SeasonComparison comparison;
  @Inject RequestWords words;

  @GET
  @Path("lots.csv")
  @Produces(TableDownload.CSV)
  @RequiresPermission(Permission.READ_LOTS)
  @HeavyDocument
  @Operation(
      operationId = "lotsCsv",
      summary = "The lots that match as a table; page and size are ignored")
  @APIResponse(responseCode = "200", description = "CSV after RFC 4180, in UTF-8")
  public Response lotsCsv(@BeanParam StandingFilter filter) {
    return TableDownload.csv("lots", table(filter, Subject.Kind.LOT));
  }

  @GET
  @Path("lots.xlsx")
  @Produces(TableDownload.XLSX)
  @RequiresPermission(Permission.READ_LOTS)
  @HeavyDocument
  @Operation(
      operationId = "lotsXlsx",
      summary = "The lots that match as a spreadsheet; page and size are ignored")
  @APIResponse(responseCode = "200", description = "Office Open XML workbook")
  public Response lotsXlsx(@BeanParam StandingFilter filter) {
    return TableDownload.xlsx("lots", table(filter, Subject.Kind.LOT));
  }

  @GET
  @Path("crops.csv")
  @Produces(TableDownload.CSV)
  @RequiresPermission(Permission.READ_CROPS)
  @HeavyDocument
  @Operation(
      operationId = "cropsCsv",
      summary = "The crops that match as a table; page and size are ignored")
  @APIResponse(responseCode = "200", description = "CSV after RFC 4180, in UTF-8")
  public Response cropsCsv(@BeanParam StandingFilter filter) {
    return TableDownload.csv("crops", table(filter, Subject.Kind.CROP));
  }

  @GET
  @Path("crops.xlsx")
  @Produces(TableDownload.XLSX)
  @RequiresPermission(Permission.READ_CROPS)
  @HeavyDocument
  @Operation(
      operationId = "cropsXlsx",
      summary = "The crops that match as a spreadsheet; page and size are ignored")
  @APIResponse(responseCode = "200", description = "Office Open XML workbook")
  public Response cropsXlsx(@BeanParam StandingFilter filter) {
    return TableDownload.xlsx("crops", table(filter, Subject.Kind.CROP));
  }

  @GET
  @Path("seasons.csv")
  @Produces(TableDownload.CSV)
  @RequiresPermission(Permission.READ_SEASONS)
  @HeavyDocument
  @Operation(operationId = "seasonsCsv", summary = "Seasons side by side as a table")
  @APIResponse(responseCode = "200", description = "CSV after RFC 4180, in UTF-8")
  public Response seasonsCsv(@BeanParam SeasonParameters narrowed) {
    return TableDownload.csv("seasons", table(narrowed));
  }

  @GET
  @Path("seasons.xlsx")
  @Produces(TableDownload.XLSX)
  @RequiresPermission(Permission.READ_SEASONS)
  @HeavyDocument
  @Operation(operationId = "seasonsXlsx", summary = "Seasons side by side as a spreadsheet")
  @APIResponse(responseCode = "200", description = "Office Open XML workbook")
  public Response seasonsXlsx(@BeanParam SeasonParameters narrowed) {
    return TableDownload.xlsx("seasons", table(narrowed));
  }

  @GET
  @Path("season-{cropYear}.zip")
  @Produces(ZIP)
  @RequiresPermission(Permission.EXPORT)
  @HeavyDocument
  @Operation(
      operationId = "seasonFacts",
      summary = "The facts of a season, as an archive of files that the loader takes",
      description =
          "All facts of the crops and lots of a year of harvest, superseded ones too, and the"
              + " declarations that they name: a file of NDJSON for each kind. Acts of persons are"
              + " left out. Unpack it, and load the folder.")
  @APIResponse(responseCode = "200", description = "ZIP archive")
  public Response season(
      @Parameter(description = "Year of harvest", example = "2026") @PathParam("cropYear")
          String cropYear) {
    List<SpecificRecord> facts = seasons.of(year(cropYear));
    return Attachment.of("season-" + cropYear + ".zip", out -> FactArchive.write(facts, out));
  }

  @GET
  @Path("fields-{cropYear}.geojson")
  @Produces(GroundFeatures.MEDIA_TYPE)
  @RequiresPermission(Permission.READ_CROPS)
  @HeavyDocument
  @Operation(
      operationId = "fieldsGeoJson",
      summary = "Fields, isolation zones and sources of pollen of a year of harvest, as GeoJSON",
      description =
          "A FeatureCollection after RFC 7946: crops with their standing, the zone of each at the"
              + " distance that it was judged by, and the sources that flower in that year."
              + " Crops and sources have the fields of their facts as properties, so that the file"
              + " can be sent in again.")
  @APIResponse(
      responseCode = "200",
      description = "GeoJSON",
      content = @Content(schema = @Schema(ref = "#/components/schemas/GeoJson")))
  public Response fields(
      @Parameter(description = "Year of harvest", example = "2026") @PathParam("cropYear")
          String cropYear) {
    return Attachment.of("fields-" + cropYear + ".geojson", ground.ofYear(year(cropYear)));
  }

  private static int year(String cropYear) {
    if (!cropYear.matches("\\d{4}")) {
      throw new ApiProblem(
          ProblemKind.INVALID_PARAMETER,
          new AddressDetail.NoWholeNumber("cropYear", Given.text(cropYear, false)));
    }
    return Integer.parseInt(cropYear);
  }

  private SpreadsheetTable table(SeasonParameters narrowed) {
    return new SeasonsTable(words.texts("seasons"), words.texts("standings"), words.terms())
        .of(comparison.seasons(narrowed.filter(new Parameters())));
  }

  private SpreadsheetTable table(StandingFilter filter, Subject.Kind kind) {
    return new StandingsTable(
            words.texts("standings"), words.terms(), FieldLabels.in(words.language()))
        .of(queries.list(filter.query(Set.of(kind), false).whole()).items());
  }
}
