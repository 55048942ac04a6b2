package org.kornspur.api.http;

import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * Tables as text, in which no cell can become a formula.
 *
 * <p>Source of the form: RFC 4180. Source of the guard: OWASP, "CSV Injection": a cell that begins
 * with one of {@code = + - @}, tab or carriage return is given an apostrophe in front, and each
 * text is quoted. Line feed and the wide forms of these signs, which some programs read alike, are
 * guarded too.
 */
public final class Csv {
  private static final String BEGINNINGS = "=+-@\t\r\n＝＋－＠";

  private Csv() {}

  /** A line of cells, each as {@link #text} gives it, or a number. */
  public static String line(Stream<String> cells) {
    return cells.collect(Collectors.joining(",", "", "\r\n"));
  }

  /** A cell of text. */
  public static String text(String text) {
    boolean couldBeFormula = !text.isEmpty() && BEGINNINGS.indexOf(text.charAt(0)) >= 0;
    return '"' + (couldBeFormula ? "'" : "") + text.replace("\"", "\"\"") + '"';
  }
}
