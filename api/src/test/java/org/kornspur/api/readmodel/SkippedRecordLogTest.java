package org.kornspur.api.readmodel;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import org.junit.jupiter.api.Test;

class SkippedRecordLogTest {
  private static final Instant NOW = Instant.parse("2026-11-30T10:00:00Z");

  @Test
  void eachTopicIsToldOfOnceAMinute() {
    assertThat(SkippedRecordLog.mayTell("once.a.minute", NOW)).isTrue();
    assertThat(SkippedRecordLog.mayTell("once.a.minute", NOW.plusSeconds(59))).isFalse();
    assertThat(SkippedRecordLog.mayTell("another", NOW.plusSeconds(59))).isTrue();
    assertThat(SkippedRecordLog.mayTell("once.a.minute", NOW.plusSeconds(61))).isTrue();
    assertThat(SkippedRecordLog.mayTell("once.a.minute", NOW.plusSeconds(62))).isFalse();
  }
}
