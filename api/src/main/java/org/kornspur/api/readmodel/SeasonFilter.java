package org.kornspur.api.readmodel;

import java.util.Optional;

/**
 * Which crops and lots a line of seasons is of. What is empty does not restrict.
 *
 * @param seedId line or hybrid that the seed is
 * @param holder multiplier
 */
public record SeasonFilter(
    Optional<String> hybridId, Optional<String> seedId, Optional<String> holder) {
  /** All that there is. */
  public static final SeasonFilter ALL =
      new SeasonFilter(Optional.empty(), Optional.empty(), Optional.empty());

  public static SeasonFilter ofHybrid(Optional<String> hybridId) {
    return new SeasonFilter(hybridId, Optional.empty(), Optional.empty());
  }

  /** Whether it asks for no more than a hybrid, whose totals are kept. */
  public boolean isOfHybridAlone() {
    return seedId.isEmpty() && holder.isEmpty();
  }

  public boolean matches(StandingIndexRow row) {
    return (holder.isEmpty() || holder.equals(row.holder()))
        && ((hybridId.isEmpty() && seedId.isEmpty())
            || row.material()
                .filter(of -> hybridId.map(of.getHybridId()::equals).orElse(true))
                .filter(of -> seedId.map(of.getSeedId()::equals).orElse(true))
                .isPresent());
  }
}
