package org.kornspur.processors.finding;

import org.kornspur.ingest.statement.Statement;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.processors.standards.Limit;

/** A limit, without where it stands. */
public sealed interface Bound extends Finding {
  record AtLeast(Amount value) implements Bound {}

  record AtMost(Amount value) implements Bound {}

  /** So many in so much, as the text has it. */
  record AtLeastIn(Amount value, Amount in) implements Bound {}

  record AtMostIn(Amount value, Amount in) implements Bound {}

  /** With where it stands. */
  record Cited(Statement bound, Statement source) implements Bound {}

  /** The limit alone. */
  static Bound of(Limit limit) {
    Limit.Stated stated = limit.stated();
    boolean atLeast = limit.sense() == Limit.Sense.AT_LEAST;
    if (stated.in().isEmpty()) {
      Amount value = new Amount(stated.value(), limit.unit());
      return atLeast ? new AtLeast(value) : new AtMost(value);
    }
    String[] units = limit.unit().split("/", 2);
    Amount value = new Amount(stated.value(), units[0]);
    Amount in = new Amount(stated.in().get(), units[1].equals("plant") ? "plants" : units[1]);
    return atLeast ? new AtLeastIn(value, in) : new AtMostIn(value, in);
  }

  /** The limit with where it stands. */
  static Bound cited(Limit limit) {
    return new Cited(of(limit), Reference.of(limit));
  }
}
