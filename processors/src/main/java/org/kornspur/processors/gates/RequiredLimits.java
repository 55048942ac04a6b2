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
 * The limits that the gates need for a crop or lot. Whatever stands here and has no limit in the
 * book is either asked for by nobody, which the book then says, or owed; see {@link MissingLimits}.
 */
final class RequiredLimits {
  private static final List<RequiredLimit> OF_EVERY_CROP =
      List.of(
          RequiredLimit.of(Gate.ISOLATION, Quantity.ISOLATION_DISTANCE),
          RequiredLimit.of(
              Gate.OFF_TYPES, Quantity.OFF_TYPES_BY_AREA, Quantity.OFF_TYPES_BY_PLANTS),
          RequiredLimit.of(Gate.OTHER_PLANTS, Quantity.OTHER_CEREAL_PLANTS),
          RequiredLimit.of(Gate.OTHER_PLANTS, Quantity.HARD_TO_SEPARATE_PLANTS),
          RequiredLimit.of(Gate.OTHER_PLANTS, Quantity.WILD_OAT_PLANTS),
          RequiredLimit.of(Gate.OTHER_PLANTS, Quantity.SMUT_PLANTS),
          RequiredLimit.of(Gate.FIELD_INSPECTIONS, Quantity.FIELD_INSPECTIONS),
          RequiredLimit.of(Gate.FIELD_INSPECTIONS, Quantity.INSPECTIONS_IN_FLOWER),
          RequiredLimit.of(Gate.FIELD_INSPECTIONS, Quantity.INSPECTION_STAGE),
          RequiredLimit.of(Gate.PREVIOUS_CROPPING, Quantity.YEARS_WITHOUT_RYE),
          RequiredLimit.of(Gate.CROP_AREA, Quantity.CROP_AREA),
          RequiredLimit.of(Gate.OFF_TYPES, Quantity.COUNTED_AREA)
              .beside(Quantity.OFF_TYPES_BY_AREA),
          RequiredLimit.of(Gate.OFF_TYPES, Quantity.COUNTED_PLANTS)
              .beside(Quantity.OFF_TYPES_BY_PLANTS),
          RequiredLimit.of(Gate.OTHER_PLANTS, Quantity.COUNTED_AREA)
              .beside(
                  Quantity.OTHER_CEREAL_PLANTS,
                  Quantity.HARD_TO_SEPARATE_PLANTS,
                  Quantity.WILD_OAT_PLANTS,
                  Quantity.SMUT_PLANTS));

  private static final List<RequiredLimit> OF_A_STERILE_FEMALE =
      List.of(
          RequiredLimit.of(
              Gate.SHEDDING_FEMALES,
              Quantity.SHEDDING_FEMALES_ALL_VISITS,
              Quantity.SHEDDING_FEMALES),
          RequiredLimit.of(Gate.FEMALE_STERILITY, Quantity.FEMALE_STERILITY),
          RequiredLimit.of(Gate.SHEDDING_FEMALES, Quantity.FLOWERING_PLANTS)
              .beside(Quantity.SHEDDING_FEMALES, Quantity.SHEDDING_FEMALES_ALL_VISITS),
          RequiredLimit.of(Gate.FEMALE_STERILITY, Quantity.EXAMINED_PLANTS)
              .beside(Quantity.FEMALE_STERILITY),
          RequiredLimit.of(Gate.FEMALE_STERILITY, Quantity.BAGGED_EARS)
              .beside(Quantity.FEMALE_STERILITY));

  private static final List<RequiredLimit> OF_EVERY_LOT =
      List.of(RequiredLimit.of(Gate.MASS_BALANCE, Quantity.MASS_BALANCE_TOLERANCE));

  private static final List<RequiredLimit> COUNTED_BY_SAMPLE =
      List.of(
          RequiredLimit.of(Gate.OTHER_SEEDS, Quantity.OTHER_SEEDS_TOTAL),
          RequiredLimit.of(Gate.OTHER_SEEDS, Quantity.OTHER_CEREAL_SEEDS),
          RequiredLimit.of(Gate.OTHER_SEEDS, Quantity.OTHER_PLANT_SEEDS),
          RequiredLimit.of(Gate.OTHER_SEEDS, Quantity.RAPHANUS_AND_AGROSTEMMA_SEEDS),
          RequiredLimit.of(Gate.OTHER_SEEDS, Quantity.WILD_OAT_SEEDS),
          RequiredLimit.of(Gate.OTHER_SEEDS, Quantity.LOLIUM_TEMULENTUM_SEEDS),
          RequiredLimit.of(Gate.ERGOT, Quantity.ERGOT_BODIES));

  private static final List<RequiredLimit> OF_SEED_TO_BE_USED =
      Stream.of(
              List.of(
                  RequiredLimit.of(Gate.GERMINATION, Quantity.GERMINATION),
                  RequiredLimit.of(Gate.GERMINATION, Quantity.GERMINATION_SEEDS),
                  RequiredLimit.of(Gate.ANALYTICAL_PURITY, Quantity.ANALYTICAL_PURITY),
                  RequiredLimit.of(Gate.MOISTURE, Quantity.MOISTURE),
                  RequiredLimit.of(Gate.LOT_SIZE, Quantity.LOT_MASS),
                  RequiredLimit.of(Gate.SAMPLING, Quantity.SUBMITTED_SAMPLE_MASS)),
              COUNTED_BY_SAMPLE,
              List.of(
                  RequiredLimit.of(Gate.GERMINATION, Quantity.GERMINATION_TEST_AGE)
                      .beside(Quantity.GERMINATION, Quantity.GERMINATION_SEEDS),
                  RequiredLimit.of(Gate.ANALYTICAL_PURITY, Quantity.PURITY_SAMPLE_MASS)
                      .beside(Quantity.ANALYTICAL_PURITY),
                  RequiredLimit.of(Gate.OTHER_SEEDS, Quantity.COUNT_SAMPLE_MASS)
                      .beside(
                          COUNTED_BY_SAMPLE.stream()
                              .flatMap(demand -> demand.anyOf().stream())
                              .toList())))
          .flatMap(List::stream)
          .toList();

  private static final List<RequiredLimit> OF_MIXTURES =
      List.of(RequiredLimit.of(Gate.BLEND_SHARE, Quantity.BLEND_SHARE_EXTRA_TOLERANCE));

  private static final List<RequiredLimit> OF_ADMIXTURES =
      List.of(RequiredLimit.of(Gate.COMPONENTS, Quantity.OPEN_POLLINATED_SHARE));

  private static final List<RequiredLimit> OF_SEED_MIXED =
      List.of(
          RequiredLimit.of(
              Gate.POST_CONTROL_OF_BASIC_SEED, Quantity.POST_CONTROL_BEFORE_CERTIFICATION));

  private static final List<RequiredLimit> OF_POST_CONTROL =
      List.of(
          RequiredLimit.of(Gate.POST_CONTROL, Quantity.POST_CONTROL_OFF_TYPES),
          RequiredLimit.of(Gate.POST_CONTROL, Quantity.POST_CONTROL_SHEDDING),
          RequiredLimit.of(Gate.POST_CONTROL, Quantity.POST_CONTROL_NON_HYBRIDS),
          RequiredLimit.of(Gate.POST_CONTROL, Quantity.POST_CONTROL_PRODUCER_RISK),
          RequiredLimit.of(Gate.POST_CONTROL, Quantity.POST_CONTROL_PLANTS));

  private RequiredLimits() {}

  /** What is asked of a crop. */
  static List<RequiredLimit> of(SeedCrop crop) {
    return ofCrop(crop.role(), quantity -> crop.limit(quantity).isPresent());
  }

  /** What is asked of each crop in a role, by what the book limits. */
  static List<RequiredLimit> ofCrop(CropRole role, Predicate<Quantity> isLimited) {
    return asked(
        isLimited,
        OF_EVERY_CROP,
        onlyIf(FemaleSterilityGate.hasSterileFemale(role), OF_A_STERILE_FEMALE));
  }

  /** What is asked of a lot. */
  static List<RequiredLimit> of(SeedLot lot) {
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
  static List<RequiredLimit> ofSeed(Material.Kind kind, Predicate<Quantity> isLimited) {
    return asked(
        isLimited,
        OF_EVERY_LOT,
        OF_SEED_TO_BE_USED,
        onlyIf(kind == Material.Kind.TECHNICAL_MIXTURE, OF_MIXTURES),
        onlyIf(kind != Material.Kind.F1_SEED, OF_SEED_MIXED),
        OF_POST_CONTROL);
  }

  @SafeVarargs
  private static List<RequiredLimit> asked(
      Predicate<Quantity> isLimited, List<RequiredLimit>... demands) {
    return Stream.of(demands)
        .flatMap(List::stream)
        .filter(each -> each.isAsked(isLimited))
        .toList();
  }

  private static List<RequiredLimit> onlyIf(boolean condition, List<RequiredLimit> demands) {
    return condition ? demands : List.of();
  }

  /** What was counted in post-control asks for a limit; what nobody counted does not. */
  private static List<RequiredLimit> ofPostControl(SeedLot lot) {
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
