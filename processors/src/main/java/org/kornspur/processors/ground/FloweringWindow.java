package org.kornspur.processors.ground;

import java.time.LocalDate;
import java.util.Optional;
import org.kornspur.contract.FieldCropDeclared;

/**
 * The days on which a crop flowers or a source can shed pollen, both ends included, as far as they
 * are known.
 *
 * @param from first day; empty where nobody knows when it began
 * @param to last day; empty where nobody knows when it ends, or where it still stands
 */
public record FloweringWindow(Optional<LocalDate> from, Optional<LocalDate> to) {

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

  /** The days in which a declared crop flowers, as far as they are known. */
  public static FloweringWindow flowering(FieldCropDeclared crop) {
    return known(
        Optional.ofNullable(crop.getFloweringFrom()), Optional.ofNullable(crop.getFloweringTo()));
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
