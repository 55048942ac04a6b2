package org.kornspur.api.time;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.function.LongSupplier;
import org.jboss.logging.Logger;

/**
 * The clock of the machine, for whatever is counted in time: log-ins, waits, the clients of the
 * brokers. It never goes back. When the clock of the machine is set back, this one goes on, by a
 * tenth slower, until that one has caught up; when it is set forward, this one follows. What a
 * person signs or records bears the time of the machine and not this one.
 */
public final class SteadyClock extends Clock {
  private static final Logger LOG = Logger.getLogger(SteadyClock.class);
  private static final SteadyClock OF_MACHINE =
      new SteadyClock(System::currentTimeMillis, System::nanoTime);

  private static final long NANOS_A_MILLI = 1_000_000;

  /** Smaller steps are those of a clock that is kept right. */
  private static final long SMALLEST_STEP = Duration.ofMillis(500).toNanos();

  /**
   * Between two readings that took longer something stood still, and they do not belong together.
   */
  private static final long LONGEST_READING = Duration.ofMillis(10).toNanos();

  private static final int MOST_READINGS = 5;
  private static final int SLOWER_BY = 10;

  private final LongSupplier wallMillis;
  private final LongSupplier ranNanos;
  private long wall;
  private long ran;
  private long ahead;
  private long latest;

  SteadyClock(LongSupplier wallMillis, LongSupplier ranNanos) {
    this.wallMillis = wallMillis;
    this.ranNanos = ranNanos;
    this.wall = wallMillis.getAsLong() * NANOS_A_MILLI;
    this.ran = ranNanos.getAsLong();
    this.latest = wall;
  }

  /** The one of this process. */
  public static SteadyClock ofMachine() {
    return OF_MACHINE;
  }

  @Override
  public synchronized long millis() {
    for (int reading = 0; reading < MOST_READINGS; reading++) {
      long before = ranNanos.getAsLong();
      long wallNow = wallMillis.getAsLong() * NANOS_A_MILLI;
      if (ranNanos.getAsLong() - before <= LONGEST_READING) {
        follow(wallNow, before);
        break;
      }
    }
    return latest / NANOS_A_MILLI;
  }

  private void follow(long wallNow, long ranNow) {
    long passed = Math.max(0, ranNow - ran);
    long step = wallNow - wall - passed;
    if (step < -SMALLEST_STEP) {
      ahead -= step;
      LOG.warnf(
          "The clock of this machine was set back by %d s. What is counted in time goes on; what is"
              + " signed and recorded bears the new time.",
          Duration.ofNanos(-step).toSeconds());
    } else if (step > SMALLEST_STEP) {
      ahead = Math.max(0, ahead - step);
    }
    ahead -= Math.min(ahead, passed / SLOWER_BY);
    wall = wallNow;
    ran = ranNow;
    latest = Math.max(latest, wallNow + ahead);
  }

  @Override
  public Instant instant() {
    return Instant.ofEpochMilli(millis());
  }

  @Override
  public ZoneId getZone() {
    return ZoneOffset.UTC;
  }

  @Override
  public Clock withZone(ZoneId zone) {
    throw new UnsupportedOperationException("It counts time, and tells no days");
  }
}
