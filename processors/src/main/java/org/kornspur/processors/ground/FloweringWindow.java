package org.kornspur.processors.ground;

import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.Collection;
import java.util.Comparator;
import java.util.Optional;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.contract.FieldCropDeclared;
import org.kornspur.contract.FieldInspection;
import org.kornspur.contract.FloweringSeen;

/**
 * The days on which a crop flowers or a source can shed pollen, both ends included, as far as they
 * are known.
 *
 * @param from first day; empty where nobody knows when it began
 * @param to last day; empty where nobody knows when it ends, or where it still stands
 */
public record FloweringWindow(Optional<LocalDate> from, Optional<LocalDate> to) {
  /** First and last stage of flowering of cereals on the BBCH scale. */
  public static final int FIRST_STAGE = 61;

  public static final int LAST_STAGE = 69;

  /**
   * Days for which no field of rye flowers, late tillers and all. Common practice, no source: an
   * ear flowers for about a week and a field for two to three.
   */
  private static final int LONGEST_DAYS = 45;

  /** Days by which flowering may be seen before or after what was declared; the same practice. */
  public static final int ASTRAY_DAYS = 10;

  /**
   * @throws IllegalArgumentException if the window ends before it begins
   */
  public FloweringWindow {
    if (from.isPresent() && to.isPresent() && to.get().isBefore(from.get())) {
      throw new IllegalArgumentException(
          "Flowering ends on %s, before it begins on %s. Correct one of the days."
              .formatted(to.get(), from.get()));
    }
  }

  /**
   * The days in which a crop flowers by its declaration, as far as they are known. Days further
   * apart than rye flowers say nothing.
   */
  public static FloweringWindow flowering(FieldCropDeclared crop) {
    return asLongAsRye(
        known(
            Optional.ofNullable(crop.getFloweringFrom()),
            Optional.ofNullable(crop.getFloweringTo())));
  }

  /**
   * From the first to the last of days in flower; further apart than rye flowers they say nothing.
   */
  public static FloweringWindow between(Collection<LocalDate> inFlower) {
    return asLongAsRye(
        known(
            inFlower.stream().min(Comparator.naturalOrder()),
            inFlower.stream().max(Comparator.naturalOrder())));
  }

  private static FloweringWindow asLongAsRye(FloweringWindow window) {
    return window.isKnown() && window.days() > LONGEST_DAYS ? unknown() : window;
  }

  /** Whether it is known to flower on a day: both ends are, and the day lies between them. */
  public boolean holds(LocalDate day) {
    return from.filter(first -> !day.isBefore(first)).isPresent()
        && to.filter(last -> !day.isAfter(last)).isPresent();
  }

  /** Whether a fact says that somebody saw the crop, or a part of it, in flower. */
  public static boolean isSeenBy(SpecificRecord fact) {
    return (fact instanceof FieldInspection visit && isInFlower(visit.getBbchStage()))
        || (fact instanceof FloweringSeen look && isInFlower(look.getBbchStage()));
  }

  public static boolean isInFlower(int bbchStage) {
    return bbchStage >= FIRST_STAGE && bbchStage <= LAST_STAGE;
  }

  /**
   * With the days on which the crop was seen in flower. A day too far away widens nothing, and what
   * nobody declared stays unknown: flowering may have begun before anybody looked.
   */
  public FloweringWindow with(Collection<LocalDate> seenInFlower) {
    Optional<LocalDate> first =
        seenInFlower.stream().filter(this::isNear).min(Comparator.naturalOrder());
    Optional<LocalDate> last =
        seenInFlower.stream().filter(this::isNear).max(Comparator.naturalOrder());
    return new FloweringWindow(
        from.map(day -> first.filter(seen -> seen.isBefore(day)).orElse(day)),
        to.map(day -> last.filter(seen -> seen.isAfter(day)).orElse(day)));
  }

  /** Whether a crop that flowers in this window can be in flower on a day. */
  public boolean isNear(LocalDate day) {
    Optional<LocalDate> earliest = from.or(() -> to.map(last -> last.minusDays(LONGEST_DAYS)));
    Optional<LocalDate> latest = to.or(() -> from.map(first -> first.plusDays(LONGEST_DAYS)));
    return earliest.filter(first -> day.isBefore(first.minusDays(ASTRAY_DAYS))).isEmpty()
        && latest.filter(last -> day.isAfter(last.plusDays(ASTRAY_DAYS))).isEmpty();
  }

  /** Number of days, of which both ends are known. */
  public long days() {
    return ChronoUnit.DAYS.between(from.orElseThrow(), to.orElseThrow()) + 1;
  }

  /** What is known of two days; days in the wrong order say nothing. */
  public static FloweringWindow known(Optional<LocalDate> from, Optional<LocalDate> to) {
    boolean reversed = from.isPresent() && to.isPresent() && to.get().isBefore(from.get());
    return reversed ? unknown() : new FloweringWindow(from, to);
  }

  /** Whether both days are. */
  public boolean isKnown() {
    return from.isPresent() && to.isPresent();
  }

  public static FloweringWindow unknown() {
    return new FloweringWindow(Optional.empty(), Optional.empty());
  }
}
