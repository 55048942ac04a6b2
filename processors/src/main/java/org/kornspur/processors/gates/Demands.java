package org.kornspur.processors.gates;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import java.util.function.Function;
import java.util.function.Predicate;
import java.util.stream.Stream;
import org.kornspur.contract.CropRole;
import org.kornspur.contract.PostControlResult;
import org.kornspur.processors.dossier.Material;
import org.kornspur.processors.standards.Quantity;
import org.kornspur.processors.verdict.Gate;

/**
 * What the gates ask of a crop or lot. Whatever stands here and has no limit in the book is either
 * asked for by nobody, which the book then says, or owed; see {@link MissingLimits}.
 */
final class Demands {
  private static final List<Demand> OF_EVERY_CROP =
      List.of(
          Demand.of(Gate.ISOLATION, Quantity.ISOLATION_DISTANCE),
          Demand.of(Gate.OFF_TYPES, Quantity.OFF_TYPES_BY_AREA, Quantity.OFF_TYPES_BY_PLANTS),
          Demand.of(Gate.OTHER_PLANTS, Quantity.OTHER_CEREAL_PLANTS),
          Demand.of(Gate.OTHER_PLANTS, Quantity.HARD_TO_SEPARATE_PLANTS),
          Demand.of(Gate.OTHER_PLANTS, Quantity.WILD_OAT_PLANTS),
          Demand.of(Gate.OTHER_PLANTS, Quantity.SMUT_PLANTS),
          Demand.of(Gate.FIELD_INSPECTIONS, Quantity.FIELD_INSPECTIONS),
          Demand.of(Gate.FIELD_INSPECTIONS, Quantity.INSPECTIONS_IN_FLOWER),
          Demand.of(Gate.FIELD_INSPECTIONS, Quantity.INSPECTION_STAGE),
          Demand.of(Gate.PREVIOUS_CROPPING, Quantity.YEARS_WITHOUT_RYE),
          Demand.of(Gate.CROP_AREA, Quantity.CROP_AREA));

  private static final List<Demand> OF_A_STERILE_FEMALE =
      List.of(
          Demand.of(
              Gate.SHEDDING_FEMALES,
              Quantity.SHEDDING_FEMALES_ALL_VISITS,
              Quantity.SHEDDING_FEMALES),
          Demand.of(Gate.FEMALE_STERILITY, Quantity.FEMALE_STERILITY));

  private static final List<Demand> COUNTED_BY_SAMPLE =
      List.of(
          Demand.of(Gate.OTHER_SEEDS, Quantity.OTHER_SEEDS_TOTAL),
          Demand.of(Gate.OTHER_SEEDS, Quantity.OTHER_CEREAL_SEEDS),
          Demand.of(Gate.OTHER_SEEDS, Quantity.OTHER_PLANT_SEEDS),
          Demand.of(Gate.OTHER_SEEDS, Quantity.RAPHANUS_AND_AGROSTEMMA_SEEDS),
          Demand.of(Gate.OTHER_SEEDS, Quantity.WILD_OAT_SEEDS),
          Demand.of(Gate.OTHER_SEEDS, Quantity.LOLIUM_TEMULENTUM_SEEDS),
          Demand.of(Gate.ERGOT, Quantity.ERGOT_BODIES));

  private static final Demand SAMPLE_FOR_COUNTS =
      Demand.of(Gate.OTHER_SEEDS, Quantity.COUNT_SAMPLE_MASS);

  private static final Demand AGE_OF_TEST =
      Demand.of(Gate.GERMINATION, Quantity.GERMINATION_TEST_AGE);

  private static final List<Demand> OF_SEED_TO_BE_USED =
      List.of(
          Demand.of(Gate.GERMINATION, Quantity.GERMINATION),
          Demand.of(Gate.GERMINATION, Quantity.GERMINATION_SEEDS),
          Demand.of(Gate.ANALYTICAL_PURITY, Quantity.ANALYTICAL_PURITY),
          Demand.of(Gate.MOISTURE, Quantity.MOISTURE),
          Demand.of(Gate.LOT_SIZE, Quantity.LOT_MASS),
          Demand.of(Gate.SAMPLING, Quantity.SUBMITTED_SAMPLE_MASS));

  private static final Demand OF_EVERY_LOT =
      Demand.of(Gate.MASS_BALANCE, Quantity.MASS_BALANCE_TOLERANCE);

  private static final Demand OF_SEED_MIXED =
      Demand.of(Gate.POST_CONTROL_OF_BASIC_SEED, Quantity.POST_CONTROL_BEFORE_CERTIFICATION);

  private static final List<Demand> OF_POST_CONTROL =
      List.of(
          Demand.of(Gate.POST_CONTROL, Quantity.POST_CONTROL_OFF_TYPES),
          Demand.of(Gate.POST_CONTROL, Quantity.POST_CONTROL_SHEDDING),
          Demand.of(Gate.POST_CONTROL, Quantity.POST_CONTROL_NON_HYBRIDS),
          Demand.of(Gate.POST_CONTROL, Quantity.POST_CONTROL_PRODUCER_RISK),
          Demand.of(Gate.POST_CONTROL, Quantity.POST_CONTROL_PLANTS));

  private Demands() {}

  /** A least sample, which is asked for where something is limited that is counted in it. */
  private record LeastSample(Gate gate, Quantity least, List<Quantity> counted) {
    Stream<Demand> of(Predicate<Quantity> isLimited) {
      return counted.stream().anyMatch(isLimited)
          ? Stream.of(Demand.of(gate, least))
          : Stream.empty();
    }
  }

  private static final List<LeastSample> LEAST_SAMPLES =
      List.of(
          new LeastSample(
              Gate.OFF_TYPES, Quantity.COUNTED_AREA, List.of(Quantity.OFF_TYPES_BY_AREA)),
          new LeastSample(
              Gate.OFF_TYPES, Quantity.COUNTED_PLANTS, List.of(Quantity.OFF_TYPES_BY_PLANTS)),
          new LeastSample(
              Gate.OTHER_PLANTS,
              Quantity.COUNTED_AREA,
              List.of(
                  Quantity.OTHER_CEREAL_PLANTS,
                  Quantity.HARD_TO_SEPARATE_PLANTS,
                  Quantity.WILD_OAT_PLANTS,
                  Quantity.SMUT_PLANTS)));

  private static final List<LeastSample> LEAST_SAMPLES_OF_A_STERILE_FEMALE =
      List.of(
          new LeastSample(
              Gate.SHEDDING_FEMALES,
              Quantity.FLOWERING_PLANTS,
              List.of(Quantity.SHEDDING_FEMALES, Quantity.SHEDDING_FEMALES_ALL_VISITS)),
          new LeastSample(
              Gate.FEMALE_STERILITY, Quantity.EXAMINED_PLANTS, List.of(Quantity.FEMALE_STERILITY)),
          new LeastSample(
              Gate.FEMALE_STERILITY, Quantity.BAGGED_EARS, List.of(Quantity.FEMALE_STERILITY)));

  /** What is asked of a crop. */
  static List<Demand> of(SeedCrop crop) {
    return ofCrop(crop.role(), quantity -> crop.limit(quantity).isPresent());
  }

  /** What is asked of each crop in a role, by what the book limits. */
  static List<Demand> ofCrop(CropRole role, Predicate<Quantity> isLimited) {
    boolean hasSterileFemale = FemaleSterility.hasSterileFemale(role);
    return Stream.of(
            OF_EVERY_CROP.stream(),
            LEAST_SAMPLES.stream().flatMap(sample -> sample.of(isLimited)),
            (hasSterileFemale ? OF_A_STERILE_FEMALE : List.<Demand>of()).stream(),
            (hasSterileFemale ? LEAST_SAMPLES_OF_A_STERILE_FEMALE : List.<LeastSample>of())
                .stream().flatMap(sample -> sample.of(isLimited)))
        .flatMap(demands -> demands)
        .toList();
  }

  /** What is asked of a lot. */
  static List<Demand> of(SeedLot lot) {
    Predicate<Quantity> isLimited = quantity -> lot.limit(quantity).isPresent();
    List<Demand> demands = new ArrayList<>();
    demands.add(OF_EVERY_LOT);
    if (lot.isToBeUsed()) {
      demands.addAll(ofSeedToBeUsed(isLimited));
    }
    demands.addAll(ofKind(lot.material().kind()));
    if (PostControlOfBasicSeed.wentIntoMixture(lot.dossier())) {
      demands.add(OF_SEED_MIXED);
    }
    demands.addAll(ofPostControl(lot));
    return demands;
  }

  /** What can be asked of seed of a kind: used, counted in post-control, and mixed if it can be. */
  static List<Demand> ofSeed(Material.Kind kind, Predicate<Quantity> isLimited) {
    List<Demand> demands = new ArrayList<>();
    demands.add(OF_EVERY_LOT);
    demands.addAll(ofSeedToBeUsed(isLimited));
    demands.addAll(ofKind(kind));
    if (kind == Material.Kind.COMPONENT) {
      demands.add(OF_SEED_MIXED);
    }
    demands.addAll(OF_POST_CONTROL);
    return demands;
  }

  private static List<Demand> ofKind(Material.Kind kind) {
    return kind == Material.Kind.TECHNICAL_MIXTURE
        ? List.of(Demand.of(Gate.BLEND_SHARE, Quantity.BLEND_SHARE_EXTRA_TOLERANCE))
        : List.of();
  }

  private static List<Demand> ofSeedToBeUsed(Predicate<Quantity> isLimited) {
    List<Demand> demands = new ArrayList<>(OF_SEED_TO_BE_USED);
    demands.addAll(COUNTED_BY_SAMPLE);
    if (isLimited.test(Quantity.GERMINATION) || isLimited.test(Quantity.GERMINATION_SEEDS)) {
      demands.add(AGE_OF_TEST);
    }
    if (isLimited.test(Quantity.ANALYTICAL_PURITY)) {
      demands.add(Demand.of(Gate.ANALYTICAL_PURITY, Quantity.PURITY_SAMPLE_MASS));
    }
    if (COUNTED_BY_SAMPLE.stream()
        .anyMatch(demand -> demand.anyOf().stream().anyMatch(isLimited))) {
      demands.add(SAMPLE_FOR_COUNTS);
    }
    return demands;
  }

  /** What was counted in post-control asks for a limit; what nobody counted does not. */
  private static List<Demand> ofPostControl(SeedLot lot) {
    List<PostControlResult> results = lot.dossier().facts(PostControlResult.class);
    List<Demand> demands = new ArrayList<>();
    if (results.isEmpty()) {
      return demands;
    }
    Set<Quantity> left = EnumSet.noneOf(Quantity.class);
    if (results.stream().allMatch(result -> result.getStatedPurityPercent() != null)) {
      left.add(Quantity.POST_CONTROL_OFF_TYPES);
    }
    if (!isCounted(results, PostControlResult::getSheddingPlants)) {
      left.add(Quantity.POST_CONTROL_SHEDDING);
    }
    if (!isCounted(results, PostControlResult::getNonHybridPlants)) {
      left.add(Quantity.POST_CONTROL_NON_HYBRIDS);
    }
    OF_POST_CONTROL.stream()
        .filter(demand -> !left.contains(demand.anyOf().get(0)))
        .forEach(demands::add);
    return demands;
  }

  private static boolean isCounted(
      List<PostControlResult> results, Function<PostControlResult, Integer> count) {
    return results.stream().map(count).anyMatch(Objects::nonNull);
  }
}
