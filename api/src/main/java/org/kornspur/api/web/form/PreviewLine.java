package org.kornspur.api.web.form;

import java.util.Locale;

/**
 * One thing that follows from what was typed.
 *
 * @param source where a number in it is published; empty where there is none
 */
public record PreviewLine(String label, String text, Weight weight, String source) {

  /** How a line weighs. */
  public enum Weight {
    PLAIN,
    GOOD,
    OWED,
    BAD
  }

  /** One without a published number. */
  public PreviewLine(String label, String text, Weight weight) {
    this(label, text, weight, "");
  }

  /** Class of its box; empty where it weighs nothing. */
  public String look() {
    return weight == Weight.PLAIN ? "" : weight.name().toLowerCase(Locale.ROOT);
  }
}
