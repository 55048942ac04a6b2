package org.kornspur.api.query.plan;

import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import org.kornspur.contract.FieldCropDeclared;
import org.kornspur.processors.plan.MultiplicationChain;
import org.kornspur.processors.plan.field.FieldName;
import org.kornspur.processors.plan.field.KnownField;
import org.kornspur.processors.plan.field.Placement;
import org.kornspur.processors.plan.field.PlannedCrop;
import org.kornspur.processors.plan.field.RyeStand;
import org.kornspur.processors.standards.Rulebook;
import org.kornspur.processors.standards.Rulebooks;

/**
 * The crops of a plan, each with the rulebook that it will be judged under: the one that a person
 * chose, else that of the latest crop of the same seed, else of any seed.
 */
final class PlannedCrops {
  private final MultiplicationChain chain;
  private final Rulebooks rulebooks;
  private final Optional<String> chosen;
  private final Map<String, String> bookOfSeed = new HashMap<>();
  private final String otherwise;

  private PlannedCrops(
      MultiplicationChain chain,
      Rulebooks rulebooks,
      Optional<String> chosen,
      List<FieldCropDeclared> crops) {
    this.chain = chain;
    this.rulebooks = rulebooks;
    this.chosen = chosen;
    crops.forEach(crop -> bookOfSeed.put(crop.getSeedComponentId(), crop.getRulebookId()));
    this.otherwise =
        crops.isEmpty()
            ? rulebooks.all().iterator().next().id()
            : crops.get(crops.size() - 1).getRulebookId();
  }

  /**
   * Of one plan.
   *
   * @param known rye on record, of which the crops tell their books
   */
  static PlannedCrops of(
      MultiplicationChain chain, FieldChoices choices, List<RyeStand> known, Rulebooks rulebooks) {
    return new PlannedCrops(
        chain,
        rulebooks,
        Optional.ofNullable(choices.rulebookId()).filter(id -> rulebooks.find(id).isPresent()),
        known.stream()
            .flatMap(stand -> stand.seedCrop().stream())
            .map(RyeStand.SeedCropRules::declared)
            .sorted(Comparator.comparingInt(FieldCropDeclared::getCropYear))
            .toList());
  }

  /** The crop of a seed; empty for one that is no part of the plan or cannot be grown. */
  Optional<PlannedCrop> crop(String seedId, int year) {
    return chain.steps().stream()
        .filter(step -> step.seedId().equals(seedId))
        .findFirst()
        .flatMap(step -> PlannedCrop.of(step, year, book(seedId)));
  }

  private Rulebook book(String seedId) {
    return rulebooks
        .find(chosen.orElseGet(() -> bookOfSeed.getOrDefault(seedId, otherwise)))
        .orElseThrow();
  }

  /** What a person put on fields, as far as it is part of the plan. */
  List<Placement> placements(
      FieldChoices choices, Function<FieldName, Optional<KnownField>> fields) {
    return choices.placed().stream()
        .flatMap(
            placed ->
                fields
                    .apply(placed.field())
                    .flatMap(
                        field ->
                            crop(placed.seedId(), placed.year())
                                .map(
                                    crop ->
                                        new Placement(
                                            crop,
                                            field,
                                            placed.areaHa() == null
                                                ? field.areaHa()
                                                : placed.areaHa(),
                                            true)))
                    .stream())
        .toList();
  }
}
