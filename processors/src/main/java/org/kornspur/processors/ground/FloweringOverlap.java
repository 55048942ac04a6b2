package org.kornspur.processors.ground;

import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.stream.Stream;

/**
 * Whether, and on which days, a crop and a pollen source flower together. A source that appears or
 * ends during flowering counts for the days in common only. Where a day is unknown, the windows
 * count as overlapping unless the known days alone keep them apart: what nobody saw is no isolation
 * (common practice, no source).
 */
public sealed interface FloweringOverlap {

  /** A day that nobody reported. */
  enum UnknownDay {
    FIRST_OF_CROP,
    LAST_OF_CROP,
    FIRST_OF_SOURCE,
    LAST_OF_SOURCE
  }

  /** Whether foreign pollen must be expected. */
  boolean counts();

  /** Days in common, both ends included; every end is known. */
  record Together(LocalDate from, LocalDate to) implements FloweringOverlap {
    public long days() {
      return daysFromTo(from, to);
    }

    @Override
    public boolean counts() {
      return true;
    }
  }

  /**
   * Taken to overlap because days are unknown.
   *
   * @param from no day in common lies before it; empty where no beginning is known
   * @param to no day in common lies after it; empty where no end is known
   * @param unknown days that are unknown
   */
  record Assumed(Optional<LocalDate> from, Optional<LocalDate> to, List<UnknownDay> unknown)
      implements FloweringOverlap {
    /** The most days that can be in common; empty where that has no limit. */
    public OptionalLong mostDays() {
      return from.isPresent() && to.isPresent()
          ? OptionalLong.of(daysFromTo(from.get(), to.get()))
          : OptionalLong.empty();
    }

    @Override
    public boolean counts() {
      return true;
    }
  }

  /**
   * No day in common.
   *
   * @param earlierEnds last day of the window that lies before
   * @param laterBegins first day of the other
   */
  record Apart(LocalDate earlierEnds, LocalDate laterBegins) implements FloweringOverlap {
    @Override
    public boolean counts() {
      return false;
    }
  }

  /** How the flowering of a crop and the shedding of a source meet. */
  static FloweringOverlap between(FloweringWindow crop, FloweringWindow source) {
    Optional<LocalDate> from =
        Stream.of(crop.from(), source.from()).flatMap(Optional::stream).max(LocalDate::compareTo);
    Optional<LocalDate> to =
        Stream.of(crop.to(), source.to()).flatMap(Optional::stream).min(LocalDate::compareTo);
    if (from.isPresent() && to.isPresent() && to.get().isBefore(from.get())) {
      return new Apart(to.get(), from.get());
    }
    List<UnknownDay> unknown = unknownDays(crop, source);
    return unknown.isEmpty()
        ? new Together(from.orElseThrow(), to.orElseThrow())
        : new Assumed(from, to, List.copyOf(unknown));
  }

  private static List<UnknownDay> unknownDays(FloweringWindow crop, FloweringWindow source) {
    List<UnknownDay> unknown = new ArrayList<>();
    if (crop.from().isEmpty()) {
      unknown.add(UnknownDay.FIRST_OF_CROP);
    }
    if (crop.to().isEmpty()) {
      unknown.add(UnknownDay.LAST_OF_CROP);
    }
    if (source.from().isEmpty()) {
      unknown.add(UnknownDay.FIRST_OF_SOURCE);
    }
    if (source.to().isEmpty()) {
      unknown.add(UnknownDay.LAST_OF_SOURCE);
    }
    return unknown;
  }

  private static long daysFromTo(LocalDate from, LocalDate to) {
    return ChronoUnit.DAYS.between(from, to) + 1;
  }
}
