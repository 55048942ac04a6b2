package org.kornspur.processors.gates;

import java.util.List;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.IntRange;
import org.assertj.core.api.Assertions;
import org.kornspur.contract.Category;
import org.kornspur.contract.CropRole;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.fixture.Dossiers;
import org.kornspur.processors.fixture.Facts;

/** More faults never help, and a stricter rulebook never lets through what a milder one stops. */
class StricterNeverReleasesMoreTest {
  private static final List<String> BEST_FIRST = List.of("MET", "OWED", "NOT_MET");

  @Property(tries = 300)
  void moreOffTypesNeverHelp(
      @ForAll @IntRange(max = 60) int offTypes,
      @ForAll @IntRange(min = 1, max = 20) int more,
      @ForAll @DoubleRange(min = 10, max = 900) double areaM2,
      @ForAll CropRole role) {
    for (String book : List.of("EU", "DE", "HOUSE")) {
      Assertions.assertThat(rank(book, new OffTypesGate(), crop(role, offTypes + more, areaM2)))
          .isGreaterThanOrEqualTo(rank(book, new OffTypesGate(), crop(role, offTypes, areaM2)));
    }
  }

  @Property(tries = 300)
  void moreErgotNeverHelps(
      @ForAll @IntRange(max = 9) int first,
      @ForAll @IntRange(max = 9) int second,
      @ForAll @IntRange(min = 1, max = 4) int more) {
    for (String book : List.of("EU", "HOUSE")) {
      int rank = rank(book, new ErgotGate(), lot(90, first, second));
      Assertions.assertThat(rank(book, new ErgotGate(), lot(90, first + more, second)))
          .isGreaterThanOrEqualTo(rank);
      Assertions.assertThat(rank(book, new ErgotGate(), lot(90, first, second + more)))
          .isGreaterThanOrEqualTo(rank);
    }
  }

  @Property(tries = 300)
  void theHouseNeverReleasesWhatTheLawStops(
      @ForAll @IntRange(max = 40) int offTypes,
      @ForAll @DoubleRange(min = 10, max = 900) double areaM2,
      @ForAll CropRole role,
      @ForAll @IntRange(min = 70, max = 100) int germination,
      @ForAll @IntRange(max = 9) int ergot,
      @ForAll @IntRange(max = 9) int secondErgot) {
    for (GateRule gate : Gates.all()) {
      for (Dossier dossier :
          List.of(crop(role, offTypes, areaM2), lot(germination, ergot, secondErgot))) {
        String law = Judged.by("EU", gate, dossier).worst();
        String house = Judged.by("HOUSE", gate, dossier).worst();
        if (!law.equals("NONE") && !law.equals("MET")) {
          Assertions.assertThat(house).isNotEqualTo("MET").isNotEqualTo("NONE");
        }
      }
    }
  }

  private static int rank(String book, GateRule gate, Dossier dossier) {
    return BEST_FIRST.indexOf(Judged.by(book, gate, dossier).worst());
  }

  private static Dossier crop(CropRole role, int offTypes, double areaM2) {
    return Dossiers.crop("c1")
        .with(
            Facts.crop("c1", role),
            Facts.inspection("c1")
                .female()
                .offTypesInArea(offTypes, areaM2)
                .sheddingAmong(Math.min(offTypes, 1000), 1000))
        .neighbour(areaM2)
        .dossier();
  }

  private static Dossier lot(int germination, int ergot, int secondErgot) {
    return Dossiers.lot("l1")
        .with(
            Facts.declared("l1", Facts.HYBRID, Category.CERTIFIED, 1000),
            Facts.dispatch("l1", 990 + ergot * 2.0),
            Facts.germination("l1", germination, germination, germination, germination),
            Facts.purity("l1", 118 + ergot / 2.0, 2, 0),
            Facts.otherSeeds("l1").with(sample -> sample.setErgotBodies(ergot)),
            Facts.otherSeeds("l1")
                .with(sample -> sample.setSampleNumber(2).setErgotBodies(secondErgot)))
        .dossier();
  }
}
