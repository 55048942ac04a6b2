package org.kornspur.api.security.limit;

import io.github.bucket4j.Bandwidth;
import io.github.bucket4j.Bucket;
import io.github.bucket4j.ConsumptionProbe;
import java.time.Duration;
import java.util.Map;
import java.util.OptionalLong;

/** Token buckets by name: so many at once, so many in a period. Bounded: the idle are forgotten. */
public final class RateLimiter {
  private static final int MOST = 20_000;
  private static final long NANOS_A_SECOND = 1_000_000_000L;

  private final long most;
  private final Duration period;
  private final Map<String, Bucket> buckets = new LruMap<>(MOST);

  public RateLimiter(long most, Duration period) {
    this.most = most;
    this.period = period;
  }

  /**
   * Takes one.
   *
   * @return seconds to wait where none is left; empty where one was taken
   */
  public OptionalLong take(String name) {
    ConsumptionProbe probe = bucket(name).tryConsumeAndReturnRemaining(1);
    return probe.isConsumed()
        ? OptionalLong.empty()
        : OptionalLong.of(
            Math.max(1, (probe.getNanosToWaitForRefill() + NANOS_A_SECOND - 1) / NANOS_A_SECOND));
  }

  /** Puts one back that was taken for nothing. */
  public void putBack(String name) {
    bucket(name).addTokens(1);
  }

  /** How many there are at once and in a period. */
  public long most() {
    return most;
  }

  private synchronized Bucket bucket(String name) {
    return buckets.computeIfAbsent(
        name,
        absent ->
            Bucket.builder()
                .withNanosecondPrecision() // of no clock that can be set
                .addLimit(Bandwidth.builder().capacity(most).refillGreedy(most, period).build())
                .build());
  }
}
