package org.kornspur.api.query.plan;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.kornspur.api.kafka.RulesInForce;
import org.kornspur.api.readmodel.ReadModel;
import org.kornspur.contract.FieldCropDeclared;
import org.kornspur.contract.PlanVersion;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.Entry;
import org.kornspur.processors.plan.MultiplicationChain;
import org.kornspur.processors.plan.PlanRefusedException;
import org.kornspur.processors.plan.field.FieldConflict;
import org.kornspur.processors.plan.field.FieldProposal;
import org.kornspur.processors.plan.field.KnownField;
import org.kornspur.processors.plan.field.Placement;
import org.kornspur.processors.plan.field.RyeStand;
import org.kornspur.processors.plan.field.SeasonFields;
import org.kornspur.processors.plan.field.SeasonTask;

/**
 * The crops that approved plans put on fields, and what speaks against a crop that somebody is
 * about to declare beside them. It sees every plan and field, whoever asks: a grower is to be
 * warned of a neighbour too, and is then told the distance and no name.
 */
@ApplicationScoped
public class ApprovedFields {
  @Inject ReadModel readModel;
  @Inject PlanService plans;
  @Inject PlanGround ground;
  @Inject DeclaredHybrids hybrids;
  @Inject RulesInForce rules;

  /** The crops of one approved plan in one harvest. */
  public record OfPlan(PlanVersion version, SeasonTask crops) {}

  /**
   * What every approved plan puts on fields in a harvest.
   *
   * @param known rye on record
   */
  public List<OfPlan> of(int year, List<RyeStand> known) {
    return readModel.plans().approved().stream()
        .flatMap(plan -> ofYear(plan, year, known).stream())
        .toList();
  }

  /** Years of harvest for which an approved plan puts something on a field. */
  public List<Integer> years() {
    return readModel.plans().approved().stream()
        .flatMap(plan -> plans.definition(plan).fields().placed().stream())
        .map(FieldChoices.Placed::year)
        .distinct()
        .sorted()
        .toList();
  }

  private Optional<OfPlan> ofYear(PlanVersion version, int year, List<RyeStand> known) {
    PlanDefinition asked = plans.definition(version);
    if (asked.fields().placed().stream().noneMatch(placed -> placed.year() == year)) {
      return Optional.empty();
    }
    List<Placement> placements =
        PlannedCrops.of(chain(asked), asked.fields(), known, rules.rulebooks())
            .placements(asked.fields(), ground::field)
            .stream()
            .filter(placement -> placement.crop().year() == year)
            .toList();
    List<KnownField> fields = placements.stream().map(Placement::field).distinct().toList();
    return Optional.of(
        new OfPlan(
            version,
            new SeasonTask(
                year, List.of(), fields, known, placements, Map.of(), Optional.empty())));
  }

  /** None where the hybrids contradict each other by now. */
  private MultiplicationChain chain(PlanDefinition asked) {
    try {
      return hybrids.chain(asked);
    } catch (PlanRefusedException changedSince) {
      return new MultiplicationChain(List.of());
    }
  }

  /**
   * What speaks against a crop, beside what approved plans put on fields.
   *
   * @param declared as it would be recorded
   */
  public List<FieldConflict> against(FieldCropDeclared declared) {
    Subject subject = Subject.crop(declared.getCropId());
    List<RyeStand> here =
        ground
            .stands(new Dossier(subject, List.of(new Entry(declared, Optional.empty())), List.of()))
            .toList();
    return of(declared.getCropYear(), here).stream()
        .map(plan -> FieldProposal.check(withoutItself(plan.crops(), declared)))
        .map(SeasonFields::conflicts)
        .flatMap(
            conflicts ->
                conflicts.stream()
                    .filter(one -> one.onRecord().filter(subject::equals).isPresent()))
        .distinct()
        .toList();
  }

  /** That a crop is declared where the plan has it is what the plan is for. */
  private static SeasonTask withoutItself(SeasonTask crops, FieldCropDeclared declared) {
    return new SeasonTask(
        crops.year(),
        crops.wanted(),
        crops.fields(),
        crops.known(),
        crops.pinned().stream()
            .filter(
                placed ->
                    !placed.crop().seedId().equals(declared.getSeedComponentId())
                        || !placed.field().name().equals(PlanGround.nameOf(declared)))
            .toList(),
        crops.mostHa(),
        crops.store());
  }
}
