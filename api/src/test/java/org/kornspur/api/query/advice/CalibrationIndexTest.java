package org.kornspur.api.query.advice;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import org.junit.jupiter.api.Test;
import org.kornspur.contract.PostControlMethod;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.advice.PredictionAgainstTruth;
import org.kornspur.processors.statistics.Interval;

/** What is kept of forecasts beside results, held against what all crops at once come to. */
class CalibrationIndexTest {
  private static final List<String> HYBRIDS = List.of("H-1", "H-2");

  @Property(tries = 300)
  void isWhatTheLatestOfEachCropComesTo(@ForAll Random random) {
    CalibrationIndex index = new CalibrationIndex();
    Map<Subject, CropCalibration> latest = new TreeMap<>();
    for (int change = 0; change < 40; change++) {
      Subject crop = Subject.crop("C-" + random.nextInt(6));
      if (random.nextInt(4) == 0) {
        index.remove(crop);
        latest.remove(crop);
      } else {
        CropCalibration calibration = invented(crop, random);
        index.put(calibration);
        latest.put(crop, calibration);
      }
    }

    assertSame(index.of(Optional.empty()), latest.values());
    for (String hybridId : HYBRIDS) {
      assertSame(
          index.of(Optional.of(hybridId)),
          latest.values().stream().filter(one -> one.hybridId().equals(hybridId)).toList());
    }
    for (int at = 0; at < 6; at++) {
      Subject lot = Subject.lot("L-" + at);
      assertThat(index.restingOn(lot))
          .isEqualTo(
              Set.copyOf(
                  latest.values().stream()
                      .filter(one -> one.restsOn().contains(lot))
                      .map(CropCalibration::crop)
                      .toList()));
    }
  }

  @Test
  void moreRowsThanOneAnswerShowsAreCountedAll() {
    CalibrationIndex index = new CalibrationIndex();
    int crops = CalibrationIndex.MOST_SHOWN + 20;
    for (int at = 0; at < crops; at++) {
      Subject crop = Subject.crop("C-%04d".formatted(at));
      index.put(
          new CropCalibration(
              crop,
              "H-1",
              List.of(row(crop, 0.9, PredictionAgainstTruth.Fit.INSIDE)),
              new TreeSet<>(),
              Set.of(crop),
              true));
    }

    CalibrationIndex.Shown shown = index.of(Optional.empty());
    assertThat(shown.rows()).hasSize(CalibrationIndex.MOST_SHOWN);
    assertThat(shown.rows().get(0).crop()).isEqualTo(Subject.crop("C-0000"));
    assertThat(shown.results()).isEqualTo(crops);
    assertThat(shown.inside()).isEqualTo(crops);
  }

  private static void assertSame(CalibrationIndex.Shown shown, Collection<CropCalibration> crops) {
    PredictionAgainstTruth truth =
        PredictionAgainstTruth.of(crops.stream().flatMap(one -> one.rows().stream()).toList());
    assertThat(shown.rows()).isEqualTo(truth.rows());
    assertThat(shown.results()).isEqualTo(truth.rows().size());
    assertThat(shown.inside()).isEqualTo(truth.inside());
    assertThat(shown.coverage()).isEqualTo(truth.coverage());
    assertThat(shown.meanDifference().isPresent()).isEqualTo(truth.meanDifference().isPresent());
    truth
        .meanDifference()
        .ifPresent(mean -> assertThat(shown.meanDifference().get()).isCloseTo(mean, within(1e-11)));
    assertThat(shown.mixedLots())
        .isEqualTo(
            crops.stream()
                .flatMap(one -> one.mixedLots().stream())
                .distinct()
                .sorted(Comparator.naturalOrder())
                .toList());
    assertThat(shown.crops()).isEqualTo(crops.size());
    assertThat(shown.complete()).isEqualTo(crops.stream().allMatch(CropCalibration::complete));
  }

  static CropCalibration invented(Subject crop, Random random) {
    List<PredictionAgainstTruth.Row> rows = new ArrayList<>();
    TreeSet<Subject> mixed = new TreeSet<>();
    Set<Subject> restsOn = new HashSet<>(Set.of(crop));
    PredictionAgainstTruth.Fit[] fits = PredictionAgainstTruth.Fit.values();
    for (int at = random.nextInt(4); at > 0; at--) {
      rows.add(row(crop, random.nextDouble(), fits[random.nextInt(fits.length)]));
      restsOn.add(Subject.lot("L-" + random.nextInt(6)));
      if (random.nextBoolean()) {
        mixed.add(Subject.lot("L-" + random.nextInt(6)));
      }
    }
    return new CropCalibration(
        crop,
        HYBRIDS.get(random.nextInt(HYBRIDS.size())),
        rows,
        mixed,
        restsOn,
        random.nextInt(5) > 0);
  }

  private static PredictionAgainstTruth.Row row(
      Subject crop, double observed, PredictionAgainstTruth.Fit fit) {
    return new PredictionAgainstTruth.Row(
        crop,
        Subject.lot("L-of-" + crop.id()),
        PostControlMethod.MARKER,
        0.9,
        new Interval(0.8, 1, 0.95),
        100,
        10,
        observed,
        new Interval(0, 1, 0.95),
        fit,
        List.of("fact"));
  }
}
