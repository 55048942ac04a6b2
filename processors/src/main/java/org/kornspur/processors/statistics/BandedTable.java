package org.kornspur.processors.statistics;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * A published table that gives one number for each band of another, read from a file beside this
 * class.
 *
 * @param title what the table gives
 * @param unit unit of the number given
 * @param step steps in which the table runs; what is looked up is first rounded to it, half up
 * @param bands in falling order, without overlap
 */
public record BandedTable(String title, String unit, double step, List<Band> bands) {

  /**
   * One row.
   *
   * @param from lowest value of the band
   * @param to highest value of the band
   * @param value what the table gives for it
   * @param source where it stands
   */
  public record Band(double from, double to, double value, Source source) {}

  private record File(
      String title, String unit, double step, Map<String, Source> sources, List<Row> rows) {}

  private record Row(double from, double to, double value, String source) {}

  /**
   * @throws IllegalArgumentException where bands overlap or are out of order
   */
  public BandedTable {
    bands = List.copyOf(bands);
    double above = Double.POSITIVE_INFINITY;
    for (Band band : bands) {
      if (!(band.from <= band.to && band.to < above)) {
        throw new IllegalArgumentException(
            "In the table '%s' the band %s to %s is out of order or overlaps the one before it"
                .formatted(title, band.from, band.to));
      }
      above = band.from;
    }
  }

  /**
   * Reads a table.
   *
   * @param name file name without ending, beside this class
   */
  static BandedTable read(String name) {
    File file = PublishedFile.read(name, File.class);
    List<Band> bands = new ArrayList<>();
    for (Row row : file.rows) {
      Source source = PublishedFile.source(file.sources, row.source);
      bands.add(new Band(row.from, row.to, row.value, source));
    }
    return new BandedTable(file.title, file.unit, file.step, bands);
  }

  /** The row that holds for a value; empty where the table does not reach. */
  public Optional<Band> at(double value) {
    long steps = Rounding.halfUp(value, step);
    return bands.stream()
        .filter(
            band -> Math.round(band.from / step) <= steps && steps <= Math.round(band.to / step))
        .findFirst();
  }
}
