package org.kornspur.ingest.intake;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.time.Instant;
import org.junit.jupiter.api.Test;
import org.kornspur.contract.FactHeader;
import org.kornspur.contract.MoistureTest;
import org.kornspur.ingest.problem.TimeProblem;

/** How far a clock may run ahead: 24 h, as between recording and happening. Common practice. */
class ReceiptCheckTest {
  private static final Instant RECEIVED = Instant.parse("2024-06-01T12:00:00Z");

  @Test
  void whatHappenedBeforeItCameIsTakenIn() {
    assertThat(ReceiptCheck.check(at(RECEIVED, RECEIVED), RECEIVED)).isEmpty();
    Instant dayAhead = RECEIVED.plus(Duration.ofHours(24));
    assertThat(ReceiptCheck.check(at(dayAhead, dayAhead), RECEIVED)).isEmpty();
  }

  @Test
  void whatHasNotHappenedYetIsRefusedWithBothTimes() {
    Instant tooFar = RECEIVED.plus(Duration.ofHours(24)).plusMillis(1);
    assertThat(ReceiptCheck.check(at(tooFar, tooFar), RECEIVED))
        .extracting(Problem::field)
        .containsExactly("header.happenedAt", "header.recordedAt");
    Problem problem = ReceiptCheck.check(at(RECEIVED, tooFar), RECEIVED).get(0);
    assertThat(problem.field()).isEqualTo("header.recordedAt");
    assertThat(problem.reason()).isEqualTo(new TimeProblem.AfterReceipt(RECEIVED).coded());
  }

  private static MoistureTest at(Instant happened, Instant recorded) {
    return new MoistureTest(
        new FactHeader("f-1", "p-1", happened, recorded, "invented", null, null),
        "L-1",
        "S-1",
        12.5,
        "LAB-1");
  }
}
