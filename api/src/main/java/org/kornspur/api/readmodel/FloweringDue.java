package org.kornspur.api.readmodel;

import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.EnumSet;
import java.util.Optional;
import java.util.Set;
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

  private static final Set<Gate> SEEN_ON_THE_FIELD =
      EnumSet.of(
          Gate.ISOLATION,
          Gate.OFF_TYPES,
          Gate.SHEDDING_FEMALES,
          Gate.FEMALE_STERILITY,
          Gate.OTHER_PLANTS,
          Gate.FIELD_INSPECTIONS);

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
        && SEEN_ON_THE_FIELD.stream().anyMatch(seen -> seen.name().equals(gate));
  }

  public long daysLeft(LocalDate today) {
    return ChronoUnit.DAYS.between(today, day);
  }

  public boolean isUrgent(LocalDate today) {
    return daysLeft(today) <= NEAR_DAYS;
  }
}
