package org.kornspur.ingest.intake;

import java.time.Duration;
import org.kornspur.contract.FactHeader;
import org.kornspur.contract.Withdrawal;
import org.kornspur.ingest.problem.IdProblem;
import org.kornspur.ingest.problem.TimeProblem;

/** A fact is written down after it happened, and corrects or takes back another than itself. */
final class HeaderCheck {

  /** How far two clocks may differ: a day covers a wrong time zone. Common practice, no source. */
  static final Duration CLOCK_SKEW = Duration.ofHours(24);

  private HeaderCheck() {}

  static void check(FactHeader header, Problems into) {
    if (header.getHappenedAt().isAfter(header.getRecordedAt().plus(CLOCK_SKEW))) {
      into.add(
          "header.happenedAt",
          header.getHappenedAt(),
          new TimeProblem.HappenedAfterRecorded(header.getRecordedAt()));
    }
    if (header.getCorrection() != null
        && header.getCorrection().getSupersedes().equals(header.getFactId())) {
      into.add("header.correction.supersedes", header.getFactId(), new IdProblem.CorrectsItself());
    }
  }

  static void check(Withdrawal withdrawal, Problems into) {
    if (withdrawal.getWithdrawnFactId().equals(withdrawal.getHeader().getFactId())) {
      into.add("withdrawnFactId", withdrawal.getWithdrawnFactId(), new IdProblem.WithdrawsItself());
    }
  }
}
