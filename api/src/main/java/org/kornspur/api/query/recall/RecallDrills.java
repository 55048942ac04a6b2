package org.kornspur.api.query.recall;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.List;
import java.util.Map;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.problem.RecordDetail;
import org.kornspur.api.query.QueryService;
import org.kornspur.api.query.RequestWords;
import org.kornspur.api.query.VisibleData;
import org.kornspur.api.query.view.AsOf;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.balance.MassBalance.Tolerance;
import org.kornspur.processors.recall.RecallDrill;
import org.kornspur.processors.standards.Limit;
import org.kornspur.standing.GateVerdict;
import org.kornspur.standing.LotStanding;

/** Runs recall drills on what this instance knows. */
@ApplicationScoped
public class RecallDrills {
  private static final int MOST_SUBJECTS = 5_000;

  /** What weighbridges and platform scales differ by; common practice, no source. */
  private static final Tolerance USUAL = new Tolerance(0.5, Limit.NO_SOURCE);

  @Inject VisibleData data;
  @Inject QueryService queries;
  @Inject RequestWords requestWords;

  /**
   * One drill.
   *
   * @param start a lot, or a crop
   * @param countedStockKg what was counted in store, kilograms by lot
   * @throws ApiProblem if nothing is known of the start, or the caller does not see it
   */
  public RecallView drill(Subject start, Map<String, Double> countedStockKg) {
    if (data.row(start).isEmpty()) {
      throw ApiProblem.noFactNames(start, RecordDetail.Hint.LABEL_NUMBERS);
    }
    AsOf asOf = queries.asOf();
    long began = System.nanoTime();
    RecallDrill drill =
        RecallDrill.of(
            data.pedigree(),
            data::countingFacts,
            start,
            MOST_SUBJECTS,
            countedStockKg,
            tolerance(start));
    double elapsedMs = (System.nanoTime() - began) / 1e6;
    return RecallView.of(
        drill,
        queries.view(drill.back(), elapsedMs, asOf),
        queries.view(drill.forward(), elapsedMs, asOf),
        data.visibility(),
        requestWords.words(),
        elapsedMs,
        data.heldInQuarantine(),
        asOf);
  }

  /** The tolerance by which the lot itself was judged. */
  private Tolerance tolerance(Subject start) {
    return data.standing(start).map(LotStanding::getVerdicts).orElse(List.of()).stream()
        .filter(verdict -> verdict.getGate().equals("MASS_BALANCE"))
        .map(GateVerdict::getLimit)
        .filter(limit -> limit != null)
        .map(
            limit ->
                new Tolerance(
                    limit.getValue(),
                    "%s %s, %s"
                        .formatted(limit.getRulebookId(), limit.getEdition(), limit.getSection())))
        .findFirst()
        .orElse(USUAL);
  }
}
