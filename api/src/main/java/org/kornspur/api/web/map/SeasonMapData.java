package org.kornspur.api.web.map;

import java.time.LocalDate;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.kornspur.contract.PollenSourceKind;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.dossier.Report.Neighbour;
import org.kornspur.processors.ground.FloweringWindow;
import org.kornspur.processors.ground.Outline;
import org.kornspur.processors.plan.field.FieldName;
import org.kornspur.processors.standards.Limit;
import org.kornspur.standing.StandingState;

/**
 * The ground of a season as far as a reader may see it.
 *
 * @param places crops and sources, what matters most first: crops not fit, crops that wait for
 *     evidence, sources, fit crops
 * @param conflicts sources that are too near a crop
 * @param undrawn ids of crops whose outline cannot be drawn
 * @param planned crops of approved plans
 */
public record SeasonMapData(
    int year,
    List<Place> places,
    List<Conflict> conflicts,
    List<String> undrawn,
    List<Planned> planned) {

  /**
   * A crop that an approved plan puts on a field.
   *
   * @param seed component or hybrid
   * @param conflicts what speaks against it there, in words
   */
  public record Planned(
      String planId,
      String planName,
      String seed,
      FieldName field,
      Outline outline,
      List<String> conflicts) {}

  /** Whether something flowers on a day. */
  public enum Flowering {
    IN_FLOWER,
    /** Days are unknown, so it counts as in flower. */
    ASSUMED,
    NOT_IN_FLOWER
  }

  /**
   * A field crop, or a source of pollen that somebody saw.
   *
   * @param field name of the field; empty for a source
   * @param state of a crop; empty for a source
   * @param kind of a source; empty for a crop
   * @param flowers days on which it flowers or can shed, as far as they are known
   * @param asked distance that a crop must keep; empty where none is asked for
   */
  public record Place(
      Subject subject,
      Optional<String> field,
      Optional<StandingState> state,
      Optional<PollenSourceKind> kind,
      Outline outline,
      FloweringWindow flowers,
      Optional<Limit> asked) {

    public boolean isCrop() {
      return kind.isEmpty();
    }

    /** How it is marked on the map. */
    public String mark() {
      return state.map(Enum::name).orElse("SOURCE");
    }

    public Flowering on(LocalDate day) {
      boolean isBefore = flowers.from().filter(day::isBefore).isPresent();
      boolean isAfter = flowers.to().filter(day::isAfter).isPresent();
      if (isBefore || isAfter) {
        return Flowering.NOT_IN_FLOWER;
      }
      return flowers.isKnown() ? Flowering.IN_FLOWER : Flowering.ASSUMED;
    }
  }

  /**
   * A source that is nearer to a crop than it may be.
   *
   * @param told whether the source may be named
   * @param limit distance that this source must keep
   * @param certain whether it speaks against the crop at once; else evidence is owed
   * @param confirmed whether more than a grower of another enterprise says so
   */
  public record Conflict(
      Subject crop,
      Neighbour neighbour,
      boolean told,
      Limit limit,
      boolean certain,
      boolean confirmed) {}

  /** The limits that sources are too near for, each once. */
  public List<Limit> rules() {
    return conflicts.stream().map(Conflict::limit).distinct().toList();
  }

  /** First and last day on which something flowers. */
  public record Days(LocalDate first, LocalDate last) {}

  /** From the first to the last day known of any crop; empty where none is. */
  public Optional<Days> days() {
    List<LocalDate> known =
        places.stream()
            .filter(Place::isCrop)
            .map(Place::flowers)
            .flatMap(window -> Stream.of(window.from(), window.to()))
            .flatMap(Optional::stream)
            .sorted(Comparator.naturalOrder())
            .toList();
    return known.isEmpty()
        ? Optional.empty()
        : Optional.of(new Days(known.get(0), known.get(known.size() - 1)));
  }

  /** How many planned crops something speaks against. */
  public long plannedAgainst() {
    return planned.stream().filter(crop -> !crop.conflicts().isEmpty()).count();
  }

  public Optional<Place> place(Subject subject) {
    return places.stream().filter(place -> place.subject().equals(subject)).findFirst();
  }

  public int crops() {
    return (int) places.stream().filter(Place::isCrop).count();
  }

  /** How many have days that nobody put on record. */
  public int withUnknownDays() {
    return (int) places.stream().filter(place -> !place.flowers().isKnown()).count();
  }
}
