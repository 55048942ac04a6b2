package org.kornspur.api.rest;

import com.fasterxml.jackson.databind.ObjectMapper;
import jakarta.inject.Inject;
import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.MediaType;
import java.io.IOException;
import java.util.List;
import java.util.Optional;
import org.eclipse.microprofile.openapi.annotations.Operation;
import org.eclipse.microprofile.openapi.annotations.enums.SchemaType;
import org.eclipse.microprofile.openapi.annotations.media.Content;
import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.eclipse.microprofile.openapi.annotations.parameters.Parameter;
import org.eclipse.microprofile.openapi.annotations.parameters.RequestBody;
import org.eclipse.microprofile.openapi.annotations.responses.APIResponse;
import org.eclipse.microprofile.openapi.annotations.tags.Tag;
import org.kornspur.api.http.JsonBody;
import org.kornspur.api.http.Parameters;
import org.kornspur.api.kafka.RulesInForce;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.problem.CropDetail;
import org.kornspur.api.query.QueryService;
import org.kornspur.api.query.RequestWords;
import org.kornspur.api.query.VisibleData;
import org.kornspur.api.query.advice.AdviceRefusals;
import org.kornspur.api.query.advice.CalibrationView;
import org.kornspur.api.query.advice.CompareRequest;
import org.kornspur.api.query.advice.ComparisonView;
import org.kornspur.api.query.advice.HeterogeneityRequest;
import org.kornspur.api.query.advice.HeterogeneityView;
import org.kornspur.api.query.advice.HybridityForecasts;
import org.kornspur.api.query.advice.HybridityView;
import org.kornspur.api.query.advice.InspectionView;
import org.kornspur.api.query.advice.MixturePlanning;
import org.kornspur.api.query.advice.MixtureRequest;
import org.kornspur.api.query.advice.MixtureView;
import org.kornspur.api.query.advice.NickingView;
import org.kornspur.api.readmodel.SeasonFilter;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.RequiresPermission;
import org.kornspur.api.text.Addresses;
import org.kornspur.contract.FieldCropDeclared;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.problem.Given;
import org.kornspur.processors.advice.InspectionAdvice;
import org.kornspur.processors.advice.NickingAdvice;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.ground.Wind;
import org.kornspur.processors.standards.Rulebook;

/** Advice for a quality person; none of it is a gate. */
@Path(Addresses.ROOT + "/advice")
@Produces(MediaType.APPLICATION_JSON)
@Tag(name = "Advice", description = "Advice, not gates: no crop or lot is fit or not fit by it")
public class AdviceResource {
  @Inject QueryService queries;
  @Inject VisibleData data;
  @Inject HybridityForecasts forecasts;
  @Inject MixturePlanning mixtures;
  @Inject ObjectMapper json;
  @Inject RulesInForce rules;
  @Inject RequestWords words;

  @GET
  @RequiresPermission(Permission.ASK_ADVICE)
  @Path("hybridity/{cropId}")
  @Operation(
      operationId = "adviseHybridity",
      summary = "How much of an F1 crop's harvest is expected to be hybrid",
      description =
          "Simulated from shedding females, pollinator share, flowering and foreign pollen, with an"
              + " interval. Names every assumption and what is missing. Advice, not a gate. A"
              + " prevailing wind is an assumption of whoever asks, bears on foreign pollen alone"
              + " and never on the isolation distance: give windFrom and windRatio together.")
  @APIResponse(responseCode = "200", description = "The forecast")
  public HybridityView hybridity(
      @Parameter(example = "C-24-012") @PathParam("cropId") String cropId,
      @Parameter(
              description =
                  "Direction from which the wind prevails in flower, degrees clockwise from north,"
                      + " from 0 to 360; no wind where left out",
              schema = @Schema(type = SchemaType.NUMBER))
          @QueryParam("windFrom")
          String windFrom,
      @Parameter(
              description =
                  "Pollen carried with that wind, as a multiple of what is carried against it, from"
                      + " 1 to 100",
              schema = @Schema(type = SchemaType.NUMBER))
          @QueryParam("windRatio")
          String windRatio) {
    Parameters parameters = new Parameters();
    double fromDeg = parameters.decimal("windFrom", windFrom, 0, 0, 360);
    double ratio = parameters.decimal("windRatio", windRatio, 1, 1, 100);
    boolean blows = parameters.together("windFrom", windFrom, "windRatio", windRatio);
    parameters.check();
    Optional<Wind> wind = blows ? Optional.of(new Wind(fromDeg, ratio)) : Optional.empty();
    Dossier crop = data.dossier(Subject.crop(cropId));
    return AdviceRefusals.asProblems(() -> forecasts.forecast(crop, wind))
        .map(advice -> HybridityView.of(advice, words.words(), queries.asOf()))
        .orElseThrow(
            () ->
                ApiProblem.refused(
                    new CropDetail.NoMixture(
                        Given.text(cropId, false), crop.crop().map(FieldCropDeclared::getRole))));
  }

  @GET
  @RequiresPermission(Permission.ASK_ADVICE)
  @Path("nicking/{cropId}")
  @Operation(
      operationId = "adviseNicking",
      summary = "Whether female and pollen parent of a crop flower together",
      description =
          "From what was seen of each (FloweringSeen and inspections of one part): first, full and"
              + " last day, the days in common, and the risk of open florets. Advice, not a gate.")
  @APIResponse(responseCode = "200", description = "What was seen and what follows")
  public NickingView nicking(@PathParam("cropId") String cropId) {
    Dossier crop = data.dossier(Subject.crop(cropId));
    return NickingAdvice.of(crop)
        .map(advice -> NickingView.of(advice, words.words(), queries.asOf()))
        .orElseThrow(
            () ->
                ApiProblem.refused(
                    new CropDetail.NoPollenParent(
                        Given.text(cropId, false), crop.crop().map(FieldCropDeclared::getRole))));
  }

  @GET
  @RequiresPermission(Permission.ASK_ADVICE)
  @Path("calibration")
  @Operation(
      operationId = "adviseCalibration",
      summary = "Forecasts of hybridity beside marker and post-control results",
      description = "Rows over all F1 crops whose harvest has results, for a calibration plot.")
  @APIResponse(responseCode = "200", description = "The rows and how many lie inside")
  public CalibrationView calibration(
      @Parameter(description = "Only crops of this hybrid") @QueryParam("hybrid") String hybrid) {
    Parameters parameters = new Parameters();
    Optional<String> hybridId = parameters.id("hybrid", hybrid);
    parameters.check();
    return CalibrationView.of(
        hybridId.orElse(null),
        forecasts.calibration(SeasonFilter.ofHybrid(hybridId)),
        words.words(),
        queries.asOf());
  }

  @POST
  @RequiresPermission(Permission.ASK_ADVICE)
  @Path("mixture")
  @Consumes(MediaType.APPLICATION_JSON)
  @Operation(
      operationId = "adviseMixture",
      summary = "Kilograms of each fit lot for a technical mixture, or why it cannot be mixed",
      description = "Stores nothing. Lots that stand first are used up first.")
  @RequestBody(content = @Content(schema = @Schema(implementation = MixtureRequest.class)))
  @APIResponse(responseCode = "200", description = "The mixture, or the reasons of the refusal")
  @APIResponse(responseCode = "404", ref = "#/components/responses/Problem")
  public MixtureView mixture(byte[] body) throws IOException {
    return mixtures.mix(JsonBody.read(json, body, MixtureRequest.class));
  }

  @GET
  @RequiresPermission(Permission.ASK_ADVICE)
  @Path("inspection/{cropId}")
  @Operation(
      operationId = "adviseInspection",
      summary = "Go on counting, accept or reject: acceptance and reject numbers for a crop",
      description =
          "For each limit of the rulebook that the crop is counted against: a sequential plan with"
              + " exact risks, the decision after the counts so far, and what more would settle"
              + " it.")
  @APIResponse(responseCode = "200", description = "The plans")
  public InspectionView inspection(
      @PathParam("cropId") String cropId,
      @Parameter(
              description = "Producer's risk, from 0.001 to 0.4; 0.05 where left out",
              schema = @Schema(type = SchemaType.NUMBER))
          @QueryParam("alpha")
          String alpha,
      @Parameter(
              description = "Consumer's risk, from 0.001 to 0.4; 0.05 where left out",
              schema = @Schema(type = SchemaType.NUMBER))
          @QueryParam("beta")
          String beta,
      @Parameter(
              description =
                  "How many times the limit is certainly too bad, from 1.2 to 100; 2 where left"
                      + " out",
              schema = @Schema(type = SchemaType.NUMBER))
          @QueryParam("multiple")
          String multiple) {
    Parameters parameters = new Parameters();
    double producersRisk = parameters.decimal("alpha", alpha, 0.05, 0.001, 0.4);
    double consumersRisk = parameters.decimal("beta", beta, 0.05, 0.001, 0.4);
    double times = parameters.decimal("multiple", multiple, 2, 1.2, 100);
    parameters.check();
    Dossier crop = data.dossier(Subject.crop(cropId));
    Rulebook rulebook = rulebook(crop);
    return AdviceRefusals.asProblems(
            () ->
                InspectionAdvice.of(
                    crop,
                    rulebook,
                    new InspectionAdvice.Terms(producersRisk, consumersRisk, times)))
        .map(advice -> InspectionView.of(advice, words.words(), queries.asOf()))
        .orElseThrow(() -> undeclared(crop));
  }

  private Rulebook rulebook(Dossier crop) {
    FieldCropDeclared declared = crop.crop().orElseThrow(() -> undeclared(crop));
    return rules
        .rulebooks()
        .find(declared.getRulebookId())
        .orElseThrow(
            () ->
                ApiProblem.refused(
                    new CropDetail.UnknownRulebook(Given.text(declared.getRulebookId(), false))));
  }

  private static ApiProblem undeclared(Dossier crop) {
    return ApiProblem.refused(new CropDetail.NotDeclared(Given.text(crop.subject().id(), false)));
  }

  @POST
  @RequiresPermission(Permission.ASK_ADVICE)
  @Path("compare")
  @Consumes(MediaType.APPLICATION_JSON)
  @Operation(
      operationId = "adviseCompare",
      summary = "Whether a stated value and a later test agree, or two tests",
      description = "By the published tolerances. Limits of variation condemn no lot.")
  @RequestBody(content = @Content(schema = @Schema(implementation = CompareRequest.class)))
  @APIResponse(responseCode = "200", description = "One answer for each rule that applies")
  public List<ComparisonView> compare(byte[] body) throws IOException {
    CompareRequest request = JsonBody.read(json, body, CompareRequest.class);
    return AdviceRefusals.asProblems(request::compare).stream()
        .map(advice -> ComparisonView.of(advice, words.words()))
        .toList();
  }

  @POST
  @RequiresPermission(Permission.ASK_ADVICE)
  @Path("heterogeneity")
  @Consumes(MediaType.APPLICATION_JSON)
  @Operation(
      operationId = "adviseHeterogeneity",
      summary = "Whether the containers of a lot differ too much: H value and range test",
      description =
          "Of purity, germination and other seeds. For BLEND_SHARE: chi-squared over pollinator"
              + " kernels of those told apart in each container, and the share with an interval"
              + " that is wider where containers differ. Stores nothing.")
  @RequestBody(content = @Content(schema = @Schema(implementation = HeterogeneityRequest.class)))
  @APIResponse(responseCode = "200", description = "Both tests")
  public HeterogeneityView heterogeneity(byte[] body) throws IOException {
    return JsonBody.read(json, body, HeterogeneityRequest.class).test(words.words());
  }
}
