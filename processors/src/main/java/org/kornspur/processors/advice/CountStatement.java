package org.kornspur.processors.advice;

import java.util.Optional;
import org.kornspur.contract.InspectedPart;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.processors.finding.Aspect;
import org.kornspur.processors.finding.Bound;
import org.kornspur.processors.finding.Reference;
import org.kornspur.processors.statistics.SequentialPlan.Decision;

/** What was counted in a crop, and whether the count may stop. */
public sealed interface CountStatement extends AdviceStatement {

  /** What was counted. */
  record Shedding(Aspect visits) implements CountStatement {}

  record Sterility() implements CountStatement {}

  record OffTypes(InspectedPart part) implements CountStatement {}

  /** What one unit is. */
  record PlantInFlower() implements CountStatement {}

  record PlantExamined() implements CountStatement {}

  record Plant() implements CountStatement {}

  record Piece(Amount area) implements CountStatement {}

  /**
   * A count against a limit.
   *
   * @param most units at which a sequential count ends at the latest; empty where it takes too long
   * @param fixed units of a count of fixed size; empty where there is none
   * @param acceptAtMost bad units with which that one ends well
   */
  record Counted(
      CountStatement part,
      int bad,
      int units,
      CountStatement unit,
      Bound limit,
      Reference source,
      Decision decision,
      Optional<Integer> most,
      Optional<Integer> fixed,
      Optional<Integer> acceptAtMost)
      implements CountStatement {}

  record NothingLimited(Subject crop) implements CountStatement {}

  record MayStop(int counts, Subject crop, int settled) implements CountStatement {}

  /** Where sequential plans stand. */
  record Plans() implements CountStatement {}
}
