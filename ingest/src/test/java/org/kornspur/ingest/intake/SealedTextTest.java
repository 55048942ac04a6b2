package org.kornspur.ingest.intake;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.kornspur.contract.SealedVerdict;
import org.kornspur.ingest.contract.FieldPath;

/** What the program writes into an act that a person signs. */
class SealedTextTest {

  @Test
  void itMayBeEmptyAndLongerThanWhatAPersonWrites() {
    assertThat(problems(verdict("MOISTURE", "x".repeat(TextRule.LONGEST + 1)))).isEmpty();
  }

  @Test
  void anyOtherTextOfTheVerdictIsLookedAt() {
    assertThat(problems(verdict("", "[]"))).extracting(Problem::field).containsExactly("gate");
    assertThat(problems(verdict("x".repeat(TextRule.LONGEST + 1), "[]")))
        .extracting(Problem::field)
        .containsExactly("gate");
  }

  private static SealedVerdict verdict(String gate, String findings) {
    return new SealedVerdict(gate, null, null, "MET", "", findings, null, null);
  }

  private static List<Problem> problems(SealedVerdict verdict) {
    Problems problems = new Problems();
    FieldLimits.check(verdict.getSchema(), verdict, FieldPath.FACT, problems);
    return problems.list();
  }
}
