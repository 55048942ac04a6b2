package org.kornspur.api.query.plan;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.kornspur.api.kafka.RulesInForce;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.problem.PlanDetail;
import org.kornspur.processors.plan.PlanRefusal;
import org.kornspur.processors.plan.SeedPlan;
import org.kornspur.processors.plan.field.FieldName;
import org.kornspur.processors.plan.field.FieldProposal;
import org.kornspur.processors.plan.field.KnownField;
import org.kornspur.processors.plan.field.Placement;
import org.kornspur.processors.plan.field.RyeStand;
import org.kornspur.processors.plan.field.SeasonFields;
import org.kornspur.processors.plan.field.SeasonTask;

/** Which field bears which crop of a plan, one harvest at a time. */
@ApplicationScoped
public class PlanFieldService {
  @Inject PlanGround ground;
  @Inject RulesInForce rules;

  /**
   * The fields of one harvest.
   *
   * @param fields every field that may be chosen
   * @param found what a person decided, and what is proposed for the rest
   * @param declaredHa hectares of each seed that are declared for the harvest already
   */
  public record FieldsOfYear(
      int year, List<KnownField> fields, SeasonFields found, Map<String, Double> declaredHa) {}

  /**
   * A proposal for all crops of a harvest.
   *
   * @throws ApiProblem if the plan has no such harvest, or names a field that is not on record
   */
  public FieldsOfYear of(CalculatedPlan plan, int year) {
    PlanDefinition asked = plan.question();
    if (year <= asked.firstYear() || year > asked.lastYear()) {
      throw ApiProblem.refused(
          new PlanDetail.NoHarvest(year, asked.firstYear() + 1, asked.lastYear()));
    }
    List<KnownField> fields = ground.fields();
    Map<FieldName, KnownField> byName =
        fields.stream().collect(Collectors.toMap(KnownField::name, field -> field));
    List<RyeStand> known = new ArrayList<>(ground.known(year));
    Map<String, Double> declaredHa = declaredHa(known, year);
    PlannedCrops crops = PlannedCrops.of(plan.chain(), asked.fields(), known, rules.rulebooks());
    List<Placement> decided =
        crops.placements(asked.fields(), name -> Optional.ofNullable(byName.get(name)));
    decided.stream()
        .filter(placement -> placement.crop().year() < year)
        .map(RyeStand::planned)
        .forEach(known::add);
    SeasonTask task =
        new SeasonTask(
            year,
            plan.plan().crops().stream()
                .filter(crop -> crop.year() == year)
                .flatMap(crop -> wanted(crop, declaredHa, crops).stream())
                .toList(),
            fields,
            known,
            decided.stream().filter(placement -> placement.crop().year() == year).toList(),
            mostHa(asked.fields(), known, year),
            Optional.ofNullable(asked.fields().store()));
    return new FieldsOfYear(year, fields, FieldProposal.of(task), declaredHa);
  }

  private static Optional<SeasonTask.Wanted> wanted(
      SeedPlan.Crop crop, Map<String, Double> declaredHa, PlannedCrops crops) {
    double areaHa = crop.areaHa() - declaredHa.getOrDefault(crop.seedId(), 0.0);
    return crops
        .crop(crop.seedId(), crop.year())
        .filter(planned -> areaHa > 0)
        .map(planned -> new SeasonTask.Wanted(planned, areaHa));
  }

  /**
   * Refuses choices of which nothing can be made.
   *
   * @throws ApiProblem if a field, seed or rulebook is not known
   */
  public void require(CalculatedPlan plan) {
    FieldChoices choices = plan.question().fields();
    Optional.ofNullable(choices.rulebookId())
        .filter(id -> rules.rulebooks().find(id).isEmpty())
        .ifPresent(
            id -> {
              throw ApiProblem.refused(new PlanDetail.NoRulebook(id));
            });
    for (FieldChoices.Placed placed : choices.placed()) {
      if (!plan.chain().ids().contains(placed.seedId())) {
        throw ApiProblem.refused(new PlanRefusal.UnknownSeed("fields.placed", placed.seedId()));
      }
      if (ground.field(placed.field()).isEmpty()) {
        throw ApiProblem.refused(
            new PlanDetail.NoField(placed.seedId(), placed.enterpriseId(), placed.fieldId()));
      }
    }
  }

  private static Map<String, Double> declaredHa(List<RyeStand> known, int year) {
    return ofYear(known, year)
        .collect(
            Collectors.groupingBy(
                stand -> stand.seedCrop().orElseThrow().declared().getSeedComponentId(),
                Collectors.summingDouble(RyeStand::areaHa)));
  }

  /** What growers declared already is no longer free. */
  private static Map<String, Double> mostHa(FieldChoices choices, List<RyeStand> known, int year) {
    Map<String, Double> most = new HashMap<>();
    choices.growers().forEach(grower -> most.put(grower.enterpriseId(), grower.mostHa()));
    ofYear(known, year)
        .forEach(
            stand ->
                most.computeIfPresent(
                    stand.seedCrop().orElseThrow().declared().getEnterpriseId(),
                    (grower, ha) -> Math.max(0, ha - stand.areaHa())));
    return most;
  }

  private static Stream<RyeStand> ofYear(List<RyeStand> known, int year) {
    return known.stream()
        .filter(stand -> stand.planned().isEmpty() && stand.seedCrop().isPresent())
        .filter(stand -> stand.seedCrop().orElseThrow().declared().getCropYear() == year)
        .filter(stand -> stand.plot().cropYear() == year);
  }
}
