package org.kornspur.api.readmodel;

import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.Arrays;
import java.util.Optional;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.standing.LotStanding;

/**
 * Until when evidence on a crop can be had. What is seen on flowering plants can be seen only while
 * they flower; a distance must be known before they shed pollen.
 *
 * @param day last day
 * @param beforeFlowering whether it is the first day of flowering rather than the last
 */
public record FloweringDue(LocalDate day, boolean beforeFlowering) {

  /** Days before the last on which it is called urgent. */
  private static final int NEAR_DAYS = 14;

  /** For a gate of a standing; empty where no flowering bounds it, or its days are not declared. */
  public static Optional<FloweringDue> of(String gate, LotStanding standing) {
    if (!isSeenOnTheField(gate, Subject.parse(standing.getSubject()))) {
      return Optional.empty();
    }
    return gate.equals(Gate.ISOLATION.name())
        ? Optional.ofNullable(standing.getFloweringFrom()).map(day -> new FloweringDue(day, true))
        : Optional.ofNullable(standing.getFloweringTo()).map(day -> new FloweringDue(day, false));
  }

  /** Whether a gate looks at the crop on the field. A gate of a later release does not count. */
  public static boolean isSeenOnTheField(String gate, Subject subject) {
    return subject.kind() == Subject.Kind.CROP
        && Arrays.stream(Gate.values())
            .filter(known -> known.name().equals(gate))
            .anyMatch(FloweringDue::concerns);
  }

  private static boolean concerns(Gate gate) {
    return switch (gate) {
      case ISOLATION,
          OFF_TYPES,
          SHEDDING_FEMALES,
          FEMALE_STERILITY,
          OTHER_PLANTS,
          FIELD_INSPECTIONS ->
          true;
      case PREVIOUS_CROPPING,
          CROP_AREA,
          COMPONENTS,
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

  public long daysLeft(LocalDate today) {
    return ChronoUnit.DAYS.between(today, day);
  }

  public boolean isUrgent(LocalDate today) {
    return daysLeft(today) <= NEAR_DAYS;
  }
}
