package org.kornspur.processors.ground;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
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
 */
public record Plot(
    Subject subject,
    int cropYear,
    List<GeoPosition> outline,
    Optional<String> pollenId,
    Optional<PollenSourceKind> sourceKind,
    Optional<LocalDate> sheddingFrom,
    Optional<LocalDate> sheddingTo,
    String factId) {

  /** Whether this is a seed crop that foreign pollen would spoil. */
  public boolean isSeedCrop() {
    return pollenId.isPresent();
  }

  /** Whether the pollen of {@code other} is foreign to this seed crop. */
  public boolean isThreatenedBy(Plot other) {
    return isSeedCrop()
        && !subject.equals(other.subject)
        && cropYear == other.cropYear
        && !pollenId.equals(other.pollenId);
  }
}
