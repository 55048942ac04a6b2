package org.kornspur.api.page;

import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.Optional;
import org.kornspur.contract.FieldCropDeclared;
import org.kornspur.processors.verdict.Gate;

/**
 * Until when evidence on a crop can be had. What is seen on flowering plants can be seen only while
 * they flower; a distance must be known before they shed pollen.
 *
 * @param day last day
 * @param beforeFlowering whether it is the first day of flowering rather than the last
 */
record FloweringDue(LocalDate day, boolean beforeFlowering) {

  /** Days before the last on which it is called urgent. */
  private static final int NEAR_DAYS = 14;

  /** Whether a gate looks at the crop on the field. */
  static boolean concerns(Gate gate) {
    return switch (gate) {
      case ISOLATION,
          OFF_TYPES,
          SHEDDING_FEMALES,
          FEMALE_STERILITY,
          OTHER_PLANTS,
          FIELD_INSPECTIONS ->
          true;
      case COMPONENTS,
          ORIGIN,
          BLEND_SHARE,
          MASS_BALANCE,
          POST_CONTROL,
          POST_CONTROL_OF_BASIC_SEED,
          GERMINATION,
          ANALYTICAL_PURITY,
          OTHER_SEEDS,
          ERGOT,
          MOISTURE,
          LOT_SIZE,
          SAMPLING,
          CONDEMNATION,
          CONDEMNATION_OF_SEED ->
          false;
    };
  }

  /** For a gate of a crop; empty where its flowering days are not declared. */
  static Optional<FloweringDue> of(Gate gate, FieldCropDeclared crop) {
    return gate == Gate.ISOLATION
        ? Optional.ofNullable(crop.getFloweringFrom()).map(day -> new FloweringDue(day, true))
        : Optional.ofNullable(crop.getFloweringTo()).map(day -> new FloweringDue(day, false));
  }

  long daysLeft(LocalDate today) {
    return ChronoUnit.DAYS.between(today, day);
  }

  boolean isUrgent(LocalDate today) {
    return daysLeft(today) <= NEAR_DAYS;
  }

  /** In words, as of a day. */
  String words(LocalDate today, LocalForm form, DeskMessages texts) {
    long left = daysLeft(today);
    String written = form.day(day);
    if (beforeFlowering) {
      return left >= 0 ? texts.flowersFrom(written, form.count(left)) : texts.flowersSince(written);
    }
    return left >= 0 ? texts.flowersUntil(written, form.count(left)) : texts.floweredUntil(written);
  }
}
