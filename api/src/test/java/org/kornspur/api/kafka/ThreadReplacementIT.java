package org.kornspur.api.kafka;

import static org.apache.kafka.streams.errors.StreamsUncaughtExceptionHandler.StreamThreadExceptionResponse.REPLACE_THREAD;
import static org.apache.kafka.streams.errors.StreamsUncaughtExceptionHandler.StreamThreadExceptionResponse.SHUTDOWN_CLIENT;
import static org.assertj.core.api.Assertions.assertThat;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.time.ZoneOffset;
import org.apache.kafka.streams.errors.StreamsException;
import org.junit.jupiter.api.Test;
import org.kornspur.ingest.registry.RegistryUnreachable;

class ThreadReplacementIT {
  private final MovedClock clock = new MovedClock();
  private final ThreadReplacement threads = new ThreadReplacement(clock, Duration.ZERO);

  @Test
  void aDeathIsUnsettledUntilTheNewThreadHasLivedForAWhile() {
    assertThat(threads.unsettled()).isEmpty();

    assertThat(threads.handle(new IllegalStateException("no disk"))).isEqualTo(REPLACE_THREAD);

    assertThat(threads.unsettled()).hasValueSatisfying(why -> assertThat(why).contains("no disk"));
    clock.pass(Duration.ofSeconds(20));
    assertThat(threads.unsettled()).isEmpty();
  }

  @Test
  void oneCauseThatWaitingDoesNotMendEndsItWithinAMinute() {
    for (int death = 1; death <= 3; death++) {
      assertThat(threads.handle(tooLarge(death))).as("death %d", death).isEqualTo(REPLACE_THREAD);
      clock.pass(Duration.ofSeconds(5));
    }
    assertThat(threads.handle(tooLarge(4))).isEqualTo(SHUTDOWN_CLIENT);
  }

  @Test
  void aRegistryThatIsAwayIsWaitedForLonger() {
    for (int death = 1; death <= 10; death++) {
      assertThat(threads.handle(new StreamsException(new RegistryUnreachable("away", null))))
          .as("death %d", death)
          .isEqualTo(REPLACE_THREAD);
      clock.pass(Duration.ofSeconds(5));
    }
    assertThat(threads.handle(new StreamsException(new RegistryUnreachable("away", null))))
        .isEqualTo(SHUTDOWN_CLIENT);
  }

  @Test
  void rareDeathsOfOneCauseAreReplacedForEver() {
    for (int death = 1; death <= 30; death++) {
      assertThat(threads.handle(tooLarge(death))).isEqualTo(REPLACE_THREAD);
      clock.pass(Duration.ofMinutes(2));
    }
  }

  private static Exception tooLarge(int offset) {
    return new StreamsException(new IllegalStateException("record at " + offset + " too large"));
  }

  private static final class MovedClock extends Clock {
    private Instant now = Instant.parse("2026-05-01T00:00:00Z");

    void pass(Duration time) {
      now = now.plus(time);
    }

    @Override
    public Instant instant() {
      return now;
    }

    @Override
    public ZoneId getZone() {
      return ZoneOffset.UTC;
    }

    @Override
    public Clock withZone(ZoneId zone) {
      return this;
    }
  }
}
