package org.kornspur.ingest.demo;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.SplittableRandom;

/** Random values that depend on nothing but the key that they are drawn for. */
final class Draw {
  private static final long FNV_OFFSET = 0xcbf29ce484222325L;
  private static final long FNV_PRIME = 0x100000001b3L;

  private final SplittableRandom random;

  private Draw(long seed) {
    this.random = new SplittableRandom(seed);
  }

  /** A generator seeded by the key's text (64-bit FNV-1a). */
  static Draw of(String... key) {
    long hash = FNV_OFFSET;
    for (byte octet : String.join("|", key).getBytes(StandardCharsets.UTF_8)) {
      hash = (hash ^ (octet & 0xff)) * FNV_PRIME;
    }
    return new Draw(hash);
  }

  /** A whole number, both ends included. */
  int between(int least, int most) {
    return random.nextInt(least, most + 1);
  }

  /** A number between the ends, rounded to some decimals. */
  double between(double least, double most, int decimals) {
    return rounded(least + (most - least) * random.nextDouble(), decimals);
  }

  /** A number from 0 inclusive to 1 exclusive. */
  double share() {
    return random.nextDouble();
  }

  <T> T oneOf(List<T> choices) {
    return choices.get(random.nextInt(choices.size()));
  }

  static double rounded(double value, int decimals) {
    return BigDecimal.valueOf(value).setScale(decimals, RoundingMode.HALF_UP).doubleValue();
  }
}
