package org.kornspur.processors.advice;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.kornspur.contract.CropRole;
import org.kornspur.contract.PostControlMethod;
import org.kornspur.contract.PostControlResult;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.advice.PredictionAgainstTruth.Fit;
import org.kornspur.processors.advice.PredictionAgainstTruth.Row;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.fixture.Dossiers;
import org.kornspur.processors.fixture.Draft;
import org.kornspur.processors.fixture.Facts;
import org.kornspur.processors.pedigree.Edge;
import org.kornspur.processors.pedigree.Edges;
import org.kornspur.processors.pedigree.Pedigree;
import org.kornspur.processors.statistics.Interval;

/** Crops, lots and numbers are invented. */
class PredictionAgainstTruthTest {

  /**
   * Exact interval of 180 in 200 by bisection on the binomial sum, reckoned apart from this code.
   */
  @Test
  void resultsStandBesideTheForecastByMethod() {
    HybridityForecast forecast = forecast();
    Dossier lot =
        Dossiers.lot("L1")
            .with(
                nonHybrid("L1", PostControlMethod.MARKER, 100, 8).id("m1"),
                nonHybrid("L1", PostControlMethod.MARKER, 100, 12).id("m2"),
                nonHybrid("L1", PostControlMethod.PLOT, 50, 1),
                nonHybrid("L1", PostControlMethod.PLOT, 10, 11),
                Facts.postControl("L1", 100, 3))
            .dossier();

    List<Row> rows = PredictionAgainstTruth.rows(forecast, lot);
    assertThat(rows)
        .extracting(Row::method)
        .containsExactly(PostControlMethod.PLOT, PostControlMethod.MARKER);
    Row marker = rows.get(1);
    assertThat(marker.plants()).isEqualTo(200);
    assertThat(marker.observed()).isCloseTo(0.9, within(1e-12));
    assertThat(marker.observedInterval().lower()).isCloseTo(0.8497, within(1e-4));
    assertThat(marker.observedInterval().upper()).isCloseTo(0.9378, within(1e-4));
    assertThat(marker.factIds()).containsExactly("m1", "m2");
    assertThat(rows.get(0).plants()).isEqualTo(50);

    PredictionAgainstTruth calibration = PredictionAgainstTruth.of(rows);
    assertThat(calibration.inside()).isEqualTo((int) rows.stream().filter(Row::inside).count());
    assertThat(calibration.coverage().orElseThrow().contains(calibration.inside() / 2.0)).isTrue();
    assertThat(PredictionAgainstTruth.of(List.of()).coverage()).isEmpty();
  }

  /** By hand: 30 of 400 called, at rates of 1.25 and 2.5 % on the average of the plants. */
  @Test
  void theErrorsOfAMarkerMethodAreTakenOut() {
    Dossier lot =
        Dossiers.lot("L1")
            .with(
                marker(100, 12, 2.0, 4.0).id("m1"),
                marker(300, 18, 1.0, 2.0).id("m2"),
                marker(500, 250, 60.0, 40.0).id("tells nothing"))
            .dossier();

    Row row = PredictionAgainstTruth.rows(forecast(), lot).get(0);

    assertThat(row.factIds()).containsExactly("m1", "m2");
    assertThat(row.observed())
        .isCloseTo(1 - (0.075 - 0.0125) / (1 - 0.0125 - 0.025), within(1e-12));
    assertThat(row.observedInterval().contains(row.observed())).isTrue();
  }

  @Test
  void anObservationIsInsideUnsettledOrClearlyOff() {
    Interval predicted = new Interval(0.80, 0.90, 0.95);
    assertThat(fit(predicted, 0.85, 0.70, 0.95)).isEqualTo(Fit.INSIDE);
    assertThat(fit(predicted, 0.92, 0.88, 0.95)).isEqualTo(Fit.NOT_SETTLED);
    assertThat(fit(predicted, 0.95, 0.92, 0.97)).isEqualTo(Fit.BETTER_THAN_FORECAST);
    assertThat(fit(predicted, 0.60, 0.50, 0.70)).isEqualTo(Fit.WORSE_THAN_FORECAST);
  }

  @Test
  void aLotThatHoldsOtherSeedTooSaysNothingOfTheCrop() {
    FactsPedigree pedigree =
        new FactsPedigree(
            Facts.harvest("c1", "raw", 1000),
            Facts.conditioning().from("raw", 1000).into("clean", 900),
            Facts.split("clean").into("part", 400),
            Facts.harvest("c2", "other", 1000),
            Facts.merge("both").of("part", 400).of("other", 1000),
            Facts.sowing("c3").of("clean", 100),
            Facts.harvest("c3", "next", 100));

    HarvestedLots lots = HarvestedLots.of(pedigree, Subject.crop("c1"));
    assertThat(lots.ofThisCropAlone())
        .containsExactly(Subject.lot("clean"), Subject.lot("part"), Subject.lot("raw"));
    assertThat(lots.mixed()).containsExactly(Subject.lot("both"));
  }

  private static Fit fit(Interval predicted, double observed, double lower, double upper) {
    return PredictionAgainstTruth.fit(predicted, observed, new Interval(lower, upper, 0.95));
  }

  private static Facts.Plain<PostControlResult.Builder> nonHybrid(
      String lotId, PostControlMethod method, int plants, int nonHybrid) {
    return Facts.postControl(lotId, plants, 0)
        .with(result -> result.setMethod(method).setNonHybridPlants(nonHybrid));
  }

  private static Facts.Plain<PostControlResult.Builder> marker(
      int plants, int nonHybrid, double falsePositive, double falseNegative) {
    return nonHybrid("L1", PostControlMethod.MARKER, plants, nonHybrid)
        .with(
            result ->
                result
                    .setFalsePositivePercent(falsePositive)
                    .setFalseNegativePercent(falseNegative));
  }

  private static HybridityForecast forecast() {
    Dossier crop = Dossiers.crop("c1").with(Facts.crop("c1", CropRole.F1_MIXTURE)).dossier();
    return HybridityForecast.of(
            crop, subject -> new Dossier(subject, List.of(), List.of()), Optional.empty())
        .orElseThrow();
  }

  /** The pedigree that facts make. */
  private static final class FactsPedigree implements Pedigree {
    private final List<Edge> edges = new ArrayList<>();

    FactsPedigree(Draft<?>... drafts) {
      for (Draft<?> draft : drafts) {
        edges.addAll(Edges.of(draft.fact()));
      }
    }

    @Override
    public List<Edge> edgesInto(Subject child) {
      return edges.stream().filter(edge -> edge.child().equals(child)).toList();
    }

    @Override
    public List<Edge> edgesOutOf(Subject parent) {
      return edges.stream().filter(edge -> edge.parent().equals(parent)).toList();
    }
  }
}
