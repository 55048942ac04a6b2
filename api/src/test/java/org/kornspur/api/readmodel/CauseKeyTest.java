package org.kornspur.api.readmodel;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.kornspur.ingest.contract.Subject;

/** The text by which notes and addresses name a cause. */
class CauseKeyTest {

  @ParameterizedTest
  @EnumSource(CauseKey.Kind.class)
  void aTextThatWasWrittenIsRead(CauseKey.Kind kind) {
    CauseKey key = new CauseKey(kind, Subject.crop("C/25:S 01"));

    assertThat(CauseKey.parse(key.text())).contains(key);
  }

  @Test
  void itNamesKindAndSubject() {
    assertThat(new CauseKey(CauseKey.Kind.SEED, Subject.lot("L24-S05")).text())
        .isEqualTo("seed:lot:L24-S05");
  }

  @ParameterizedTest
  @ValueSource(
      strings = {"", "none", "seed", "seed:", "seed:lot", "seed:lot:", ":lot:A", "other:lot:A"})
  void anyOtherTextNamesNone(String text) {
    assertThat(CauseKey.parse(text)).isEmpty();
  }
}
