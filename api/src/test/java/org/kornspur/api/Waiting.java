package org.kornspur.api;

import static org.awaitility.Awaitility.await;

import io.restassured.response.Response;
import java.time.Duration;
import java.util.concurrent.Callable;
import java.util.concurrent.atomic.AtomicReference;
import java.util.function.Predicate;
import org.awaitility.core.ConditionFactory;
import org.awaitility.core.ConditionTimeoutException;

/**
 * Waits for what a running program comes to by itself. It looks at once, and then ten times a
 * second.
 */
public final class Waiting {
  private static final Duration LONGEST = Duration.ofMinutes(3);

  private Waiting() {}

  /** Waits until it is so. */
  public static void until(Callable<Boolean> isSo) {
    waiting().until(isSo);
  }

  /** The first answer that is enough. */
  public static Response until(Callable<Response> question, Predicate<Response> isEnough) {
    AtomicReference<Response> last = new AtomicReference<>();
    try {
      return waiting()
          .until(
              () -> {
                last.set(question.call());
                return last.get();
              },
              isEnough);
    } catch (ConditionTimeoutException late) {
      throw new AssertionError(
          "Still %d: %s".formatted(last.get().statusCode(), last.get().asString()), late);
    }
  }

  private static ConditionFactory waiting() {
    return await()
        .atMost(LONGEST)
        .pollInSameThread()
        .pollDelay(Duration.ZERO)
        .pollInterval(Duration.ofMillis(100));
  }
}
