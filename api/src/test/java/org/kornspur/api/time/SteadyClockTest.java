package org.kornspur.api.time;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import org.junit.jupiter.api.Test;

class SteadyClockTest {
  private static final long BEGIN = Duration.ofDays(20_000).toMillis();
  private static final long HOUR = Duration.ofHours(1).toMillis();

  private long wallMillis = BEGIN;
  private long ranNanos = -5;
  private long readingNanos;
  private final SteadyClock clock = new SteadyClock(() -> wallMillis, this::ran);

  private long ran() {
    ranNanos += readingNanos;
    return ranNanos;
  }

  private void pass(long millis) {
    wallMillis += millis;
    ranNanos += millis * 1_000_000;
  }

  @Test
  void shouldTellTheTimeOfTheMachine() {
    pass(1_234);
    assertThat(clock.millis()).isEqualTo(BEGIN + 1_234);
    assertThat(clock.instant().toEpochMilli()).isEqualTo(BEGIN + 1_234);
  }

  @Test
  void shouldGoOnSlowerUntilAClockThatWasSetBackHasCaughtUp() {
    pass(1_000);
    assertThat(clock.millis()).isEqualTo(BEGIN + 1_000);
    wallMillis -= HOUR;
    pass(100);
    assertThat(clock.millis()).isEqualTo(BEGIN + 1_090);
    for (int times = 0; times < 1_000; times++) {
      pass(1);
      clock.millis();
    }
    assertThat(clock.millis()).isEqualTo(BEGIN + 1_990);
    pass(10 * HOUR);
    assertThat(clock.millis()).isEqualTo(wallMillis);
    pass(700);
    assertThat(clock.millis()).as("at the pace of the machine again").isEqualTo(wallMillis);
  }

  @Test
  void shouldFollowAClockThatIsSetForward() {
    wallMillis += HOUR;
    assertThat(clock.millis()).isEqualTo(BEGIN + HOUR);
  }

  @Test
  void shouldBeWithTheMachineAgainWhenAClockThatWasSetBackIsSetForward() {
    wallMillis -= HOUR;
    pass(600);
    assertThat(clock.millis()).isEqualTo(BEGIN + 540);
    wallMillis += HOUR;
    pass(600);
    assertThat(clock.millis()).isEqualTo(BEGIN + 1_200).isEqualTo(wallMillis);
  }

  @Test
  void shouldNeverGoBackByAStepOfAClockThatIsKeptRight() {
    pass(1_000);
    long before = clock.millis();
    wallMillis -= 300;
    assertThat(clock.millis()).isEqualTo(before);
    pass(300);
    assertThat(clock.millis()).isEqualTo(wallMillis);
  }

  /** As where a collection of garbage falls between the two readings. */
  @Test
  void shouldTakeNoStepFromReadingsThatDoNotBelongTogether() {
    pass(1_000);
    long before = clock.millis();
    readingNanos = Duration.ofSeconds(2).toNanos();
    assertThat(clock.millis()).isEqualTo(before);
    wallMillis += Duration.ofNanos(ranNanos + 5).toMillis() - 1_000;
    readingNanos = 0;
    assertThat(clock.millis()).isEqualTo(wallMillis);
    pass(1_000);
    assertThat(clock.millis()).isEqualTo(wallMillis);
  }
}
