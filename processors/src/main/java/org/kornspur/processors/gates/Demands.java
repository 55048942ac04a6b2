package org.kornspur.processors.gates;

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
import org.kornspur.processors.standards.Rye;
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
          Demand.of(Gate.CROP_AREA, Quantity.CROP_AREA),
          Demand.of(Gate.OFF_TYPES, Quantity.COUNTED_AREA).beside(Quantity.OFF_TYPES_BY_AREA),
          Demand.of(Gate.OFF_TYPES, Quantity.COUNTED_PLANTS).beside(Quantity.OFF_TYPES_BY_PLANTS),
          Demand.of(Gate.OTHER_PLANTS, Quantity.COUNTED_AREA)
              .beside(
                  Quantity.OTHER_CEREAL_PLANTS,
                  Quantity.HARD_TO_SEPARATE_PLANTS,
                  Quantity.WILD_OAT_PLANTS,
                  Quantity.SMUT_PLANTS));

  private static final List<Demand> OF_A_STERILE_FEMALE =
      List.of(
          Demand.of(
              Gate.SHEDDING_FEMALES,
              Quantity.SHEDDING_FEMALES_ALL_VISITS,
              Quantity.SHEDDING_FEMALES),
          Demand.of(Gate.FEMALE_STERILITY, Quantity.FEMALE_STERILITY),
          Demand.of(Gate.SHEDDING_FEMALES, Quantity.FLOWERING_PLANTS)
              .beside(Quantity.SHEDDING_FEMALES, Quantity.SHEDDING_FEMALES_ALL_VISITS),
          Demand.of(Gate.FEMALE_STERILITY, Quantity.EXAMINED_PLANTS)
              .beside(Quantity.FEMALE_STERILITY),
          Demand.of(Gate.FEMALE_STERILITY, Quantity.BAGGED_EARS).beside(Quantity.FEMALE_STERILITY));

  private static final List<Demand> OF_EVERY_LOT =
      List.of(Demand.of(Gate.MASS_BALANCE, Quantity.MASS_BALANCE_TOLERANCE));

  private static final List<Demand> COUNTED_BY_SAMPLE =
      List.of(
          Demand.of(Gate.OTHER_SEEDS, Quantity.OTHER_SEEDS_TOTAL),
          Demand.of(Gate.OTHER_SEEDS, Quantity.OTHER_CEREAL_SEEDS),
          Demand.of(Gate.OTHER_SEEDS, Quantity.OTHER_PLANT_SEEDS),
          Demand.of(Gate.OTHER_SEEDS, Quantity.RAPHANUS_AND_AGROSTEMMA_SEEDS),
          Demand.of(Gate.OTHER_SEEDS, Quantity.WILD_OAT_SEEDS),
          Demand.of(Gate.OTHER_SEEDS, Quantity.LOLIUM_TEMULENTUM_SEEDS),
          Demand.of(Gate.ERGOT, Quantity.ERGOT_BODIES));

  private static final List<Demand> OF_SEED_TO_BE_USED =
      Stream.of(
              List.of(
                  Demand.of(Gate.GERMINATION, Quantity.GERMINATION),
                  Demand.of(Gate.GERMINATION, Quantity.GERMINATION_SEEDS),
                  Demand.of(Gate.ANALYTICAL_PURITY, Quantity.ANALYTICAL_PURITY),
                  Demand.of(Gate.MOISTURE, Quantity.MOISTURE),
                  Demand.of(Gate.LOT_SIZE, Quantity.LOT_MASS),
                  Demand.of(Gate.SAMPLING, Quantity.SUBMITTED_SAMPLE_MASS)),
              COUNTED_BY_SAMPLE,
              List.of(
                  Demand.of(Gate.GERMINATION, Quantity.GERMINATION_TEST_AGE)
                      .beside(Quantity.GERMINATION, Quantity.GERMINATION_SEEDS),
                  Demand.of(Gate.ANALYTICAL_PURITY, Quantity.PURITY_SAMPLE_MASS)
                      .beside(Quantity.ANALYTICAL_PURITY),
                  Demand.of(Gate.OTHER_SEEDS, Quantity.COUNT_SAMPLE_MASS)
                      .beside(
                          COUNTED_BY_SAMPLE.stream()
                              .flatMap(demand -> demand.anyOf().stream())
                              .toList())))
          .flatMap(List::stream)
          .toList();

  private static final List<Demand> OF_MIXTURES =
      List.of(Demand.of(Gate.BLEND_SHARE, Quantity.BLEND_SHARE_EXTRA_TOLERANCE));

  private static final List<Demand> OF_ADMIXTURES =
      List.of(Demand.of(Gate.COMPONENTS, Quantity.OPEN_POLLINATED_SHARE));

  private static final List<Demand> OF_SEED_MIXED =
      List.of(
          Demand.of(Gate.POST_CONTROL_OF_BASIC_SEED, Quantity.POST_CONTROL_BEFORE_CERTIFICATION));

  private static final List<Demand> OF_POST_CONTROL =
      List.of(
          Demand.of(Gate.POST_CONTROL, Quantity.POST_CONTROL_OFF_TYPES),
          Demand.of(Gate.POST_CONTROL, Quantity.POST_CONTROL_SHEDDING),
          Demand.of(Gate.POST_CONTROL, Quantity.POST_CONTROL_NON_HYBRIDS),
          Demand.of(Gate.POST_CONTROL, Quantity.POST_CONTROL_PRODUCER_RISK),
          Demand.of(Gate.POST_CONTROL, Quantity.POST_CONTROL_PLANTS));

  private Demands() {}

  /** What is asked of a crop. */
  static List<Demand> of(SeedCrop crop) {
    return ofCrop(crop.role(), quantity -> crop.limit(quantity).isPresent());
  }

  /** What is asked of each crop in a role, by what the book limits. */
  static List<Demand> ofCrop(CropRole role, Predicate<Quantity> isLimited) {
    return asked(
        isLimited,
        OF_EVERY_CROP,
        onlyIf(FemaleSterilityGate.hasSterileFemale(role), OF_A_STERILE_FEMALE));
  }

  /** What is asked of a lot. */
  static List<Demand> of(SeedLot lot) {
    return asked(
        quantity -> lot.limit(quantity).isPresent(),
        OF_EVERY_LOT,
        onlyIf(lot.isToBeUsed(), OF_SEED_TO_BE_USED),
        onlyIf(lot.material().kind() == Material.Kind.TECHNICAL_MIXTURE, OF_MIXTURES),
        onlyIf(lot.rye() == Rye.HYBRID_WITH_ADMIXTURE, OF_ADMIXTURES),
        onlyIf(PostControlOfBasicSeedGate.isAsked(lot), OF_SEED_MIXED),
        ofPostControl(lot));
  }

  /** What can be asked of seed of a kind: used, counted in post-control, and mixed if it can be. */
  static List<Demand> ofSeed(Material.Kind kind, Predicate<Quantity> isLimited) {
    return asked(
        isLimited,
        OF_EVERY_LOT,
        OF_SEED_TO_BE_USED,
        onlyIf(kind == Material.Kind.TECHNICAL_MIXTURE, OF_MIXTURES),
        onlyIf(kind != Material.Kind.F1_SEED, OF_SEED_MIXED),
        OF_POST_CONTROL);
  }

  @SafeVarargs
  private static List<Demand> asked(Predicate<Quantity> isLimited, List<Demand>... demands) {
    return Stream.of(demands)
        .flatMap(List::stream)
        .filter(each -> each.isAsked(isLimited))
        .toList();
  }

  private static List<Demand> onlyIf(boolean condition, List<Demand> demands) {
    return condition ? demands : List.of();
  }

  /** What was counted in post-control asks for a limit; what nobody counted does not. */
  private static List<Demand> ofPostControl(SeedLot lot) {
    List<PostControlResult> results = lot.dossier().facts(PostControlResult.class);
    if (results.isEmpty()) {
      return List.of();
    }
    Set<Quantity> left = EnumSet.noneOf(Quantity.class);
    if (!isCounted(results, PostControlResult::getSheddingPlants)) {
      left.add(Quantity.POST_CONTROL_SHEDDING);
    }
    if (!isCounted(results, PostControlResult::getNonHybridPlants)) {
      left.add(Quantity.POST_CONTROL_NON_HYBRIDS);
    }
    return OF_POST_CONTROL.stream()
        .filter(demand -> !left.contains(demand.anyOf().get(0)))
        .toList();
  }

  private static boolean isCounted(
      List<PostControlResult> results, Function<PostControlResult, Integer> count) {
    return results.stream().map(count).anyMatch(Objects::nonNull);
  }
}
