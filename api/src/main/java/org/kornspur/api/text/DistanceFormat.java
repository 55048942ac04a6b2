package org.kornspur.api.text;

import java.math.BigDecimal;
import java.math.RoundingMode;

/**
 * Metres, rounded; with a decimal more where a distance would else round up to a whole metre. The
 * distances that are asked for are whole metres, so one just short never reads as enough.
 */
public final class DistanceFormat {
  private static final int MOST_DECIMALS = 6;

  private DistanceFormat() {}

  /** To one decimal or more. */
  public static BigDecimal rounded(double distanceM) {
    return rounded(distanceM, 1);
  }

  /** Without a decimal from 100 m on where that is enough, for the map, where room is short. */
  public static String shown(double distanceM) {
    return rounded(distanceM, distanceM >= 100 ? 0 : 1).toPlainString();
  }

  private static BigDecimal rounded(double distanceM, int decimals) {
    BigDecimal whole = BigDecimal.valueOf(distanceM);
    BigDecimal rounded = whole.setScale(decimals, RoundingMode.HALF_UP);
    boolean isWholeMetreAbove =
        rounded.stripTrailingZeros().scale() <= 0 && rounded.compareTo(whole) > 0;
    return isWholeMetreAbove && decimals < MOST_DECIMALS
        ? rounded(distanceM, decimals + 1)
        : rounded;
  }
}
