package org.kornspur.ingest.intake;

import org.kornspur.contract.Withdrawal;

/** A withdrawal takes back another fact than itself. */
final class WithdrawalCheck {

  private WithdrawalCheck() {}

  static void check(Withdrawal withdrawal, Problems into) {
    if (withdrawal.getWithdrawnFactId().equals(withdrawal.getHeader().getFactId())) {
      into.add(
          "withdrawnFactId",
          withdrawal.getWithdrawnFactId(),
          "the id of an earlier fact, not of this one",
          "Name the fact that is to be taken back");
    }
  }
}
