package org.kornspur.api.kafka;

import java.lang.reflect.Field;
import java.util.function.Supplier;
import org.apache.kafka.common.errors.TimeoutException;
import org.apache.kafka.common.utils.Time;
import org.apache.kafka.common.utils.Utils;
import org.jboss.logging.Logger;
import org.kornspur.api.time.SteadyClock;
import sun.misc.Unsafe;

/**
 * Kafka's time in this process. Its clients, streams and broker count heartbeats, commits and
 * punctuations by the clock of the machine, and stand still for as long as that was set back: a
 * timer takes no time that is before the one it has. Most of them can be given no other time, so
 * this one takes the place of the one they all have.
 */
final class SteadyTime implements Time {
  private static final Logger LOG = Logger.getLogger(SteadyTime.class);

  private final SteadyClock clock;

  SteadyTime(SteadyClock clock) {
    this.clock = clock;
  }

  /** To be called before anything of Kafka runs. */
  static void install() {
    try {
      Field instance = Unsafe.class.getDeclaredField("theUnsafe");
      instance.setAccessible(true);
      Unsafe unsafe = (Unsafe) instance.get(null);
      Field system = Time.class.getDeclaredField("SYSTEM");
      Time before = Time.SYSTEM; // has the class initialized
      unsafe.putObject(
          unsafe.staticFieldBase(system),
          unsafe.staticFieldOffset(system),
          new SteadyTime(SteadyClock.ofMachine()));
      LOG.debugf("%s takes the place of %s", Time.SYSTEM, before);
    } catch (ReflectiveOperationException | RuntimeException cannot) {
      LOG.warnf(
          "Kafka keeps the clock of the machine (%s). Restart the program if that is ever set back.",
          cannot);
    }
  }

  @Override
  public long milliseconds() {
    return clock.millis();
  }

  @Override
  public long nanoseconds() {
    return System.nanoTime();
  }

  @Override
  public void sleep(long millis) {
    Utils.sleep(millis);
  }

  @Override
  public void waitObject(Object object, Supplier<Boolean> condition, long deadlineMillis)
      throws InterruptedException {
    synchronized (object) {
      while (!condition.get()) {
        long left = deadlineMillis - milliseconds();
        if (left <= 0) {
          throw new TimeoutException("It did not become so in time");
        }
        object.wait(left);
      }
    }
  }
}
