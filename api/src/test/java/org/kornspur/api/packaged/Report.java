package org.kornspur.api.packaged;

import java.util.Locale;

/** Measured numbers, in the log of the build for the reader. */
final class Report {

  private Report() {}

  static void line(String format, Object... values) {
    System.out.println("MEASURED " + String.format(Locale.ROOT, format, values));
  }
}
