package org.kornspur.ingest.problem;

import java.time.Instant;
import java.time.LocalDate;
import org.kornspur.ingest.statement.Value.Amount;

/** When something can have been. */
public sealed interface TimeProblem extends IntakeReason {
  record NotInYears(Amount first, Amount last) implements TimeProblem {}

  record HappenedAfterRecorded(Instant recorded) implements TimeProblem {}

  record AfterReceipt(Instant received) implements TimeProblem {}

  /** The first day comes after the last, which another field holds. */
  record FirstAfterLast(String field, LocalDate last) implements TimeProblem {}

  record LastBeforeFirst(String field, LocalDate first) implements TimeProblem {}

  record NotInCropYear(Amount cropYear) implements TimeProblem {}

  record HarvestedAfterRecorded(Amount year) implements TimeProblem {}

  record SeenAfterCropYear(LocalDate seen) implements TimeProblem {}
}
