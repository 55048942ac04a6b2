package org.kornspur.api.query.recall;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.api.kafka.Engine;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.problem.RecordDetail;
import org.kornspur.api.query.QueryService;
import org.kornspur.api.query.RequestWords;
import org.kornspur.api.query.view.AsOf;
import org.kornspur.api.query.view.TraceView;
import org.kornspur.api.readmodel.ReadModel;
import org.kornspur.api.security.visibility.Visibility;
import org.kornspur.api.security.visibility.VisibilityService;
import org.kornspur.api.security.visibility.VisiblePedigree;
import org.kornspur.api.text.StandingWords;
import org.kornspur.contract.QuarantineState;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.balance.MassBalance.Tolerance;
import org.kornspur.processors.dossier.Entry;
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

  @Inject Engine engine;
  @Inject ReadModel readModel;
  @Inject QueryService queries;
  @Inject VisibilityService visibilityService;
  @Inject RequestWords requestWords;

  /**
   * One drill.
   *
   * @param start a lot, or a crop
   * @param countedStockKg what was counted in store, kilograms by lot
   * @throws ApiProblem if nothing is known of the start, or the caller does not see it
   */
  public RecallView drill(Subject start, Map<String, Double> countedStockKg) {
    Visibility visibility = visibilityService.visibility();
    if (readModel.standings().row(start).isEmpty() || !visibility.sees(start)) {
      throw unknown(start);
    }
    AsOf asOf = queries.asOf();
    StandingWords words = requestWords.standings();
    long began = System.nanoTime();
    RecallDrill drill =
        RecallDrill.of(
            VisiblePedigree.of(engine.pedigree(), visibility),
            subject -> counting(subject, visibility),
            start,
            MOST_SUBJECTS,
            countedStockKg,
            tolerance(start));
    double elapsedMs = (System.nanoTime() - began) / 1e6;
    return RecallView.of(
        drill,
        TraceView.of(drill.back(), readModel.standings()::row, visibility, words, elapsedMs, asOf),
        TraceView.of(
            drill.forward(), readModel.standings()::row, visibility, words, elapsedMs, asOf),
        visibility,
        words.verdicts().words(),
        elapsedMs,
        held(visibility),
        asOf);
  }

  /** What others sent is not counted for who does not see it. */
  private long held(Visibility visibility) {
    return visibility.isWhole()
        ? readModel.quarantine().find(Set.of(QuarantineState.HELD), entry -> true, 1, 1).total()
        : 0;
  }

  private List<SpecificRecord> counting(Subject subject, Visibility visibility) {
    return visibility.sees(subject)
        ? engine.dossier(subject).stream().filter(Entry::counts).map(Entry::fact).toList()
        : List.of();
  }

  /** The tolerance by which the lot itself was judged. */
  private Tolerance tolerance(Subject start) {
    return readModel.standing(start).map(LotStanding::getVerdicts).orElse(List.of()).stream()
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

  private static ApiProblem unknown(Subject subject) {
    return ApiProblem.noFactNames(subject, RecordDetail.Hint.LABEL_NUMBERS);
  }
}
