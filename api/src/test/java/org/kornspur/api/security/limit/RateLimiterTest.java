package org.kornspur.api.security.limit;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.util.OptionalLong;
import org.junit.jupiter.api.Test;

class RateLimiterTest {

  @Test
  void aBucketGivesSoMuchAndNoMore() {
    RateLimiter limiter = new RateLimiter(3, Duration.ofMinutes(1));
    for (int i = 0; i < 3; i++) {
      assertThat(limiter.take("one")).isEmpty();
    }
    OptionalLong wait = limiter.take("one");
    assertThat(wait.getAsLong()).isBetween(1L, 20L);
    assertThat(limiter.take("another")).isEmpty();
    limiter.putBack("one");
    assertThat(limiter.take("one")).isEmpty();
  }
}
