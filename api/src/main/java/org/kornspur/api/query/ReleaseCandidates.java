package org.kornspur.api.query;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Clock;
import java.time.LocalDate;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.function.Predicate;
import org.kornspur.api.readmodel.ResultPage;
import org.kornspur.api.readmodel.StandingIndexRow;
import org.kornspur.api.readmodel.StandingQuery;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.standing.ReleaseStep;
import org.kornspur.standing.StandingState;

/** The lots that wait for their release: fit, in store, not released, and no raw harvest. */
@ApplicationScoped
public class ReleaseCandidates {

  /** What the contract takes as the least mass, kilograms; less is left over by rounding. */
  private static final double LEAST_KG = 0.001;

  @Inject VisibleData data;
  private final Clock clock = Clock.systemUTC();

  /**
   * One page of them; those whose test of germination counts no more come last, for nobody can
   * release them before they are tested again. Of kinds, states and steps of release the question
   * is ignored.
   *
   * @param mostAPage entries a page at most, whatever is asked for
   * @param wanted which lots to list; the others are not counted either
   */
  public ResultPage<StandingIndexRow> find(
      StandingQuery asked, int mostAPage, Predicate<Subject> wanted) {
    LocalDate today = LocalDate.now(clock);
    return ResultPage.of(
        data.find(everyFitLot(asked)).items().stream()
            .filter(row -> row.leftKg() >= LEAST_KG)
            .filter(row -> !row.rawHarvest()) // ActRules lets none be released
            .filter(row -> wanted.test(row.subject()))
            .sorted(Comparator.comparing(row -> hasRunOut(row, today))),
        asked.page(),
        Math.min(asked.size(), mostAPage));
  }

  /** As {@code ActRules} says it of the lot itself, which alone decides. */
  private static boolean hasRunOut(StandingIndexRow row, LocalDate today) {
    return row.germinationUntil().filter(until -> until.isBefore(today)).isPresent();
  }

  private static StandingQuery everyFitLot(StandingQuery asked) {
    return new StandingQuery(
        EnumSet.of(Subject.Kind.LOT),
        EnumSet.of(StandingState.FIT),
        EnumSet.of(ReleaseStep.NONE, ReleaseStep.PROPOSED, ReleaseStep.SUSPENDED),
        asked.hybridId(),
        asked.seedId(),
        asked.category(),
        asked.cropYear(),
        asked.holder(),
        asked.rulebookId(),
        asked.gateNotMet(),
        asked.gateOwed(),
        false,
        asked.idPrefix(),
        asked.order(),
        1,
        Integer.MAX_VALUE);
  }
}
