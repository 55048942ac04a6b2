package org.kornspur.api.page.field;

import java.util.Locale;

/** Metres to one decimal, rounded down so that a distance just short never reads as enough. */
final class Distances {

  private Distances() {}

  static double floored(double distanceM) {
    return Math.floor(distanceM * 10) / 10;
  }

  /** Without a decimal from 100 m on, for the map, where room is short. */
  static String shown(double distanceM) {
    return distanceM >= 100
        ? String.format(Locale.ROOT, "%.0f", Math.floor(distanceM))
        : String.format(Locale.ROOT, "%.1f", floored(distanceM));
  }
}
