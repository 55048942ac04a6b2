package org.kornspur.ingest.intake;

import org.kornspur.contract.Withdrawal;
import org.kornspur.ingest.problem.IdProblem;

/** A withdrawal takes back another fact than itself. */
final class WithdrawalCheck {

  private WithdrawalCheck() {}

  static void check(Withdrawal withdrawal, Problems into) {
    if (withdrawal.getWithdrawnFactId().equals(withdrawal.getHeader().getFactId())) {
      into.add("withdrawnFactId", withdrawal.getWithdrawnFactId(), new IdProblem.WithdrawsItself());
    }
  }
}
