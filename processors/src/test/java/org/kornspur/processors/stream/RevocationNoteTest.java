package org.kornspur.processors.stream;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.kornspur.ingest.contract.FactType;

class RevocationNoteTest {

  /** What a site has kept of corrections that it took in before senders were proven. */
  @ParameterizedTest
  @ValueSource(
      strings = {"weighed wrong", "\u0001person-1\u00012024-08-03T10:00:00Z\u0001weighed wrong"})
  void whatAnEarlierVersionTookInGoesOnTakingEffect(String kept) {
    RevocationNote note = RevocationNote.read(kept);

    assertThat(note.isProven()).isTrue();
    assertThat(note.reason()).isEqualTo("weighed wrong");
  }

  @ParameterizedTest
  @ValueSource(booleans = {true, false})
  void itComesBackAsItWasWritten(boolean isProven) {
    RevocationNote note =
        new RevocationNote(
            "weighed wrong",
            Optional.of("person-1"),
            Optional.of(Instant.parse("2024-08-03T10:00:00Z")),
            isProven,
            Optional.of(FactType.MOISTURE_TEST));

    assertThat(RevocationNote.read(note.write())).isEqualTo(note);
  }

  @Test
  void aNoteThatNamesNoTypeIsReadWithoutOne() {
    assertThat(
            RevocationNote.read(
                "\u0001person-1\u00012024-08-03T10:00:00Z\u0001weighed wrong\u0001unproven"))
        .isEqualTo(
            new RevocationNote(
                "weighed wrong",
                Optional.of("person-1"),
                Optional.of(Instant.parse("2024-08-03T10:00:00Z")),
                false,
                Optional.empty()));
  }

  @Test
  void whatIsNoNoteProvesNothing() {
    assertThat(RevocationNote.read("\u0001person-1\u0001yesterday\u0001x").isProven()).isFalse();
    assertThat(RevocationNote.read("\u0001").isProven()).isFalse();
  }
}
