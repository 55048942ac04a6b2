package org.kornspur.ingest.intake;

import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Writes a count with its noun in singular or plural: one has the singular, all else, 0 and
 * fractions too, the plural. The endings stand in brackets, as in {@code plant(s) not true to type}
 * and {@code bod(y|ies) of ergot}.
 */
public final class CountedNoun {
  private static final Pattern ENDINGS = Pattern.compile("\\((?:([a-z ]*)\\|)?([a-z ]*)\\)");

  private CountedNoun() {}

  /** Such as {@code 1 plant} and {@code 20 plants}. */
  public static String of(long count, String noun) {
    return count + " " + noun(count, noun);
  }

  /** The noun alone, for an amount that is written by its own rules. */
  public static String noun(double amount, String noun) {
    Matcher endings = ENDINGS.matcher(noun);
    return endings.replaceAll(
        ending -> {
          String ofOne = ending.group(1) == null ? "" : ending.group(1);
          return Matcher.quoteReplacement(amount == 1 ? ofOne : ending.group(2));
        });
  }
}
