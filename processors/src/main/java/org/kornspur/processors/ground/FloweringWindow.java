package org.kornspur.processors.ground;

import java.time.LocalDate;
import java.util.Optional;

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

  public static FloweringWindow of(LocalDate from, LocalDate to) {
    return new FloweringWindow(Optional.of(from), Optional.of(to));
  }

  public static FloweringWindow unknown() {
    return new FloweringWindow(Optional.empty(), Optional.empty());
  }
}
