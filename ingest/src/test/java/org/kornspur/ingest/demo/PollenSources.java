package org.kornspur.ingest.demo;

import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.List;
import org.kornspur.contract.FactHeader;
import org.kornspur.contract.GeoPoint;
import org.kornspur.contract.PollenSourceKind;
import org.kornspur.contract.PollenSourceSeen;

/** Rye that is none of ours. */
final class PollenSources {
  /** Middle of a cell of the grid of fields: beyond every isolation distance. */
  private static final double HALF_CELL_M = 1_500;

  private PollenSources() {}

  /** Two sources of every year that were seen, noted and found to stand far enough away. */
  static void farAway(Book book, List<Crop> crops) {
    for (int year = 2023; year <= 2026; year++) {
      int cropYear = year;
      List<Crop> grown = crops.stream().filter(crop -> crop.year() == cropYear).limit(2).toList();
      for (Crop crop : grown) {
        String sourceId = "NB-" + crop.stem();
        Draw draw = Draw.of("source", sourceId);
        FactHeader head =
            Heads.head(
                "source-" + sourceId,
                "phone-" + draw.between(11, 29),
                crop.on(5, draw.between(18, 31)),
                "telephone note " + sourceId);
        book.season(year)
            .addByPhone(
                seen(
                    head,
                    sourceId,
                    draw.oneOf(List.of(PollenSourceKind.values())),
                    crop,
                    DemoField.offset(crop.field().centre(), HALF_CELL_M, HALF_CELL_M),
                    null));
      }
    }
  }

  /**
   * Rye around a place.
   *
   * @param endedOn day on which it was destroyed; null where it stands
   */
  static PollenSourceSeen seen(
      FactHeader head,
      String sourceId,
      PollenSourceKind kind,
      Crop crop,
      GeoPoint centre,
      LocalDate endedOn) {
    boolean field = kind == PollenSourceKind.RYE_CROP || kind == PollenSourceKind.HYBRID_RYE_CROP;
    double areaHa = Draw.of("source-area", sourceId).between(2.0, 9.0, 1) / (field ? 1 : 20);
    return PollenSourceSeen.newBuilder()
        .setHeader(head)
        .setSourceId(sourceId)
        .setKind(kind)
        .setCropYear(crop.year())
        .setOutline(DemoField.around(sourceId, centre, areaHa).outline())
        .setFirstSeenOn(LocalDate.ofInstant(head.getHappenedAt(), ZoneOffset.UTC))
        .setEndedOn(endedOn)
        .build();
  }
}
