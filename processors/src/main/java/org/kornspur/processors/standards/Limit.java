package org.kornspur.processors.standards;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.Optional;

/**
 * One limit of a rulebook, with where it stands written.
 *
 * @param quantity what is limited
 * @param sense whether the value must be at least or at most the limit
 * @param value the limit, in {@code unit}
 * @param unit unit of the limit
 * @param stated the number as the text has it, as in 5 in 150
 * @param rulebookId rulebook that it stands in; that of the tightened book where it is inherited
 * @param edition edition of that rulebook
 * @param text title of the text that it stands in
 * @param section section of the text
 * @param inForceFrom first day on which it held
 * @param inForceTo last day on which it held; empty while it holds
 * @param verified false where the value is from memory or could not be read in the text itself
 * @param note what a reader should know of it; empty where nothing
 * @param secondSample what the text allows when the first sample is over the limit
 */
public record Limit(
    Quantity quantity,
    Sense sense,
    double value,
    String unit,
    Stated stated,
    String rulebookId,
    String edition,
    String text,
    String section,
    LocalDate inForceFrom,
    Optional<LocalDate> inForceTo,
    boolean verified,
    String note,
    Optional<SecondSample> secondSample)
    implements RulebookSource {

  public Limit {
    stated = stated == null ? Stated.plain(value) : stated; // earlier versions kept no such number
  }

  /** Stands in place of a text where a number is common practice only. */
  public static final String NO_SOURCE = "common practice, no source";

  /** Stands in place of a rulebook's id where the breeder's master data give the limit. */
  public static final String BREEDER = "breeder";

  /** The same where breeder or authority state it for the material, in the fact itself. */
  public static final String STATED = "stated";

  /** Which side of the limit is good. */
  public enum Sense {
    AT_LEAST,
    AT_MOST
  }

  /**
   * A number as a text has it, as in 5 plants in 150 m2.
   *
   * @param value in the unit's first part
   * @param in in the unit's second part; empty for a plain number
   */
  public record Stated(double value, Optional<Double> in) {
    public static Stated plain(double value) {
      return new Stated(value, Optional.empty());
    }
  }

  /**
   * A second sample of the same mass that may save the lot.
   *
   * @param firstAtMost most that the first sample may hold for a second to be allowed
   * @param secondAtMost most that the second sample may hold
   * @param verified false where this rule could not be read, though the limit itself was
   */
  public record SecondSample(double firstAtMost, double secondAtMost, boolean verified) {}

  /**
   * A limit that no rulebook gives.
   *
   * @param by {@link #BREEDER} or {@link #STATED}
   * @param edition of no meaning here; earlier seals are over it
   */
  public static Limit givenBy(
      String by, String edition, LocalDate on, Quantity quantity, Sense sense, double value) {
    return new Limit(
        quantity,
        sense,
        value,
        quantity.unit(),
        Stated.plain(value),
        by,
        edition,
        "",
        "",
        on,
        Optional.empty(),
        true,
        "",
        Optional.empty());
  }

  /** The same limit, where it is not certain that the text applies it here. */
  Limit unverified() {
    return new Limit(
        quantity,
        sense,
        value,
        unit,
        stated,
        rulebookId,
        edition,
        text,
        section,
        inForceFrom,
        inForceTo,
        false,
        note,
        secondSample);
  }

  /** Room left to the limit; negative where it is broken. */
  public double margin(double measured) {
    return switch (sense) {
      case AT_LEAST -> measured - value;
      case AT_MOST -> value - measured;
    };
  }

  /** Whether the value lies within the limit; the limit itself is within. */
  public boolean holds(double measured) {
    return margin(measured) >= 0;
  }

  /** The limit in English, as in {@code at most 5 plants in 150 m2}; for messages about a file. */
  public String wording() {
    String side = sense == Sense.AT_LEAST ? "at least " : "at most ";
    String plain = plain(stated.value());
    if (stated.in().isEmpty()) {
      return side + plain + " " + counted(plain, unit);
    }
    String[] parts = unit.split("/", 2);
    String base = parts[1].equals("plant") ? "plants" : parts[1];
    return side
        + "%s %s in %s %s"
            .formatted(plain, counted(plain, parts[0]), plain(stated.in().get()), base);
  }

  private static String plain(double number) {
    return BigDecimal.valueOf(number).stripTrailingZeros().toPlainString();
  }

  /** Units are plural words or signs: one of them loses its s. */
  private static String counted(String number, String unit) {
    return number.equals("1") && unit.endsWith("s") ? unit.substring(0, unit.length() - 1) : unit;
  }

  /** Where the limit stands and how sure that is, for the end of a sentence. */
  public String citation() {
    String until = inForceTo.map(day -> " to " + day).orElse("");
    boolean hasText = !text.equals(NO_SOURCE);
    String surety = verified || !hasText ? "" : "; not verified against the text";
    return "%s %s: %s, %s, in force from %s%s%s"
        .formatted(rulebookId, edition, text, section, inForceFrom, until, surety);
  }
}
