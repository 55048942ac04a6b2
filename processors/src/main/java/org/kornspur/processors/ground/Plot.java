package org.kornspur.processors.ground;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.kornspur.contract.PollenSourceKind;
import org.kornspur.ingest.contract.Subject;

/**
 * A place where pollen is shed, and for a seed crop also where foreign pollen matters.
 *
 * @param subject the crop or the seen source
 * @param cropYear year in which it flowers
 * @param outline corners in order, ring closed by itself
 * @param pollenId component whose pollen is shed and wanted here; empty for a seen source, whose
 *     pollen is foreign to all
 * @param sourceKind kind of a seen source; empty for a crop
 * @param sheddingFrom first day on which it can shed, as far as known
 * @param sheddingTo last day, as far as known
 * @param factId fact that declares it
 * @param reportedBy enterprise of the grower who brought that fact through the interface, while
 *     nobody else confirmed it; empty where it counts for everybody
 * @param otherReports what else is reported of the same crop or source and is not settled; each
 *     without further ones
 * @param tooManyOffTypes whether it was found not to be what it is called: with more off-types than
 *     it may have, of other seed, or condemned; empty where not
 */
public record Plot(
    Subject subject,
    int cropYear,
    List<GeoPosition> outline,
    Optional<String> pollenId,
    Optional<PollenSourceKind> sourceKind,
    Optional<LocalDate> sheddingFrom,
    Optional<LocalDate> sheddingTo,
    String factId,
    Optional<String> reportedBy,
    Optional<List<Plot>> otherReports,
    Optional<Boolean> tooManyOffTypes) {

  /** The one plot of several reports of the same crop or source; empty where there is none. */
  public static Optional<Plot> of(List<Plot> reports) {
    return reports.stream()
        .findFirst()
        .map(
            first ->
                new Plot(
                    first.subject,
                    first.cropYear,
                    first.outline,
                    first.pollenId,
                    first.sourceKind,
                    first.sheddingFrom,
                    first.sheddingTo,
                    first.factId,
                    first.reportedBy,
                    Optional.of(reports.subList(1, reports.size()))
                        .filter(others -> !others.isEmpty()),
                    first.tooManyOffTypes));
  }

  /**
   * The same rye in another year, in which it can have shed on any day.
   *
   * @param toldBy enterprise of the grower who alone says so; empty where it counts for everybody
   */
  public Plot standingIn(int year, Optional<String> toldBy) {
    return new Plot(
        subject,
        year,
        outline,
        pollenId,
        sourceKind,
        Optional.empty(),
        sourceKind.isPresent() ? sheddingTo : Optional.empty(),
        factId,
        toldBy,
        Optional.empty(),
        tooManyOffTypes);
  }

  /** The same plot, found not to be what it is called. */
  public Plot withTooManyOffTypes() {
    return new Plot(
        subject,
        cropYear,
        outline,
        pollenId,
        sourceKind,
        sheddingFrom,
        sheddingTo,
        factId,
        reportedBy,
        otherReports.map(others -> others.stream().map(Plot::withTooManyOffTypes).toList()),
        Optional.of(true));
  }

  /** All that is reported of it: this first, then what is not settled. */
  public List<Plot> reports() {
    return Stream.concat(Stream.of(this), otherReports.stream().flatMap(List::stream)).toList();
  }

  /** Whether this is a seed crop that foreign pollen would spoil. */
  public boolean isSeedCrop() {
    return pollenId.isPresent();
  }

  /** Whether rye was grown here, so that what it spilt grows in the years after. */
  public boolean isRyeCrop() {
    return sourceKind.map(Plot::isGrown).orElse(true);
  }

  private static boolean isGrown(PollenSourceKind kind) {
    return switch (kind) {
      case RYE_CROP, HYBRID_RYE_CROP, RYE_IN_MIXTURE -> true;
      case VOLUNTEER_RYE, FERAL_RYE -> false;
    };
  }

  /**
   * Whether the pollen of {@code other} is foreign to this seed crop: of another component, or of
   * the same one where it is not what it is called. Seed Ordinance (SaatV), Annex 2 no. 1.3.1.3b,
   * of off-types; that other seed in its place is no better: common practice, no source.
   */
  public boolean isThreatenedBy(Plot other) {
    return isSeedCrop()
        && !subject.equals(other.subject)
        && cropYear == other.cropYear
        && (!pollenId.equals(other.pollenId) || other.tooManyOffTypes.orElse(false));
  }
}
