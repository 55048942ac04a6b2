package org.kornspur.ingest.intake;

import java.time.Instant;
import java.util.List;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.contract.FactHeader;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.problem.TimeProblem;

/**
 * Holds the times of a fact against the time at which it came. What has not happened yet is no
 * fact; a clock that runs ahead would put it before facts that were known earlier.
 */
public final class ReceiptCheck {

  private ReceiptCheck() {}

  /**
   * Checks a fact that {@link FactChecks} found sound.
   *
   * @param receivedAt when it came, by the clock of whoever took it in
   * @return what is wrong; empty for a fact that may be taken in
   */
  public static List<Problem> check(SpecificRecord fact, Instant receivedAt) {
    FactHeader header = FactType.headerOf(fact);
    Problems problems = new Problems();
    check("header.happenedAt", header.getHappenedAt(), receivedAt, problems);
    check("header.recordedAt", header.getRecordedAt(), receivedAt, problems);
    return problems.list();
  }

  private static void check(String field, Instant stated, Instant receivedAt, Problems into) {
    if (stated.isAfter(receivedAt.plus(HeaderCheck.CLOCK_SKEW))) {
      into.add(field, stated, new TimeProblem.AfterReceipt(receivedAt));
    }
  }
}
