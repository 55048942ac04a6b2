package org.kornspur.api.query.plan;

import java.util.List;
import java.util.Map;
import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.kornspur.api.query.view.AsOf;
import org.kornspur.api.text.ReaderWords;
import org.kornspur.contract.Category;
import org.kornspur.contract.CropRole;
import org.kornspur.ingest.statement.Coded;
import org.kornspur.processors.ground.GeoPosition;
import org.kornspur.processors.plan.field.FieldConflict;
import org.kornspur.processors.plan.field.SeasonFields;

/** The fields of one harvest of a plan as the interface tells them. */
@Schema(
    description =
        "Which field bears which crop of a plan in one harvest: what a person decided and what is"
            + " proposed for the rest. Advice; nothing is declared by it")
public record FieldsView(
    String planId,
    int version,
    int year,
    @Schema(description = "What a person decided, then what is proposed") List<PlacedView> placed,
    @Schema(description = "Crops for which no field is left") List<UnplacedView> unplaced,
    @Schema(description = "Hectares that are declared for the harvest already, by seed")
        Map<String, Double> declaredHa,
    AsOf asOf) {

  @Schema(description = "A crop on a field")
  public record PlacedView(
      String seedId,
      CropRole role,
      Category category,
      String rulebookId,
      String enterpriseId,
      String fieldId,
      @Schema(description = "Hectares of the crop") double areaHa,
      @Schema(description = "Hectares of the field") double fieldHa,
      @Schema(description = "Whether a person decided on it") boolean decided,
      @Schema(description = "What speaks against it; none for a proposal")
          List<ConflictView> conflicts,
      @Schema(
              description =
                  "Whether the rulebook says nothing of the distance to keep, so that evidence is"
                      + " owed once it is declared")
          boolean noDistanceInBook,
      @Schema(nullable = true, description = "Way from the store, kilometres as the crow flies")
          Double km,
      @Schema(description = "Corners of the field") List<GeoPosition> outline) {}

  @Schema(description = "A conflict, as data and in words")
  public record ConflictView(Coded conflict, String sentence) {}

  @Schema(description = "Hectares of a crop for which no field is left")
  public record UnplacedView(
      String seedId,
      double areaHa,
      @Schema(description = "How many fields are not for it, by what speaks against them")
          Map<SeasonFields.Obstacle, Integer> fields,
      @Schema(description = "One of each kind") List<ConflictView> examples) {}

  /** The view of the fields of a harvest. */
  public static FieldsView of(
      CalculatedPlan plan, PlanFieldService.FieldsOfYear fields, ReaderWords words, AsOf asOf) {
    return new FieldsView(
        plan.version().getPlanId(),
        plan.version().getVersion(),
        fields.year(),
        fields.found().placed().stream().map(one -> placed(one, words)).toList(),
        fields.found().unplaced().stream()
            .map(
                one ->
                    new UnplacedView(
                        one.crop().seedId(),
                        one.areaHa(),
                        one.fields(),
                        conflicts(one.examples(), words)))
            .toList(),
        fields.declaredHa(),
        asOf);
  }

  private static PlacedView placed(SeasonFields.Placed one, ReaderWords words) {
    var placement = one.placement();
    return new PlacedView(
        placement.crop().seedId(),
        placement.crop().role(),
        placement.crop().category(),
        placement.crop().rulebook().id(),
        placement.field().name().enterpriseId(),
        placement.field().name().fieldId(),
        placement.areaHa(),
        placement.field().areaHa(),
        placement.isPinned(),
        conflicts(one.conflicts(), words),
        one.isBookSilent(),
        one.km().orElse(null),
        placement.field().outline().corners());
  }

  private static List<ConflictView> conflicts(List<FieldConflict> conflicts, ReaderWords words) {
    return conflicts.stream().map(one -> new ConflictView(one.coded(), words.plain(one))).toList();
  }

  /** How many crops stand where something speaks against them. */
  public long inConflict() {
    return placed.stream().filter(one -> !one.conflicts().isEmpty()).count();
  }
}
