package org.kornspur.processors.gates;

import java.util.List;
import java.util.Optional;
import org.kornspur.ingest.intake.Counted;
import org.kornspur.processors.standards.Limit;
import org.kornspur.processors.statistics.Interval;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Measured;
import org.kornspur.processors.verdict.Verdict;

/**
 * A value that a gate found, ready to be held against a limit.
 *
 * @param gate gate that found it
 * @param aspect aspect of the gate
 * @param value the value, in the unit of the limit
 * @param interval what the value may truly be; empty where it is exact
 * @param factIds facts that it rests on
 * @param clause what was found, as the start of a sentence and without a full stop
 */
record Finding(
    Gate gate,
    String aspect,
    double value,
    Optional<Measured.Interval> interval,
    List<String> factIds,
    String clause) {

  static Measured.Interval measured(Interval interval) {
    return new Measured.Interval(interval.lower(), interval.upper(), interval.confidence());
  }

  /** An interval of shares as one of percent. */
  static Measured.Interval measuredPercent(Interval interval) {
    return new Measured.Interval(
        100 * interval.lower(), 100 * interval.upper(), interval.confidence());
  }

  /** Met where the limit holds. */
  Verdict against(Limit limit, String remedy) {
    return decided(limit.holds(value), limit.margin(value), limit, remedy);
  }

  /** Decided by a rule of the gate that is more than a comparison with the limit. */
  Verdict decided(boolean met, double margin, Limit limit, String remedy) {
    Measured measured = new Measured(value, limit.unit(), margin, interval);
    String sentence =
        "%s; the limit of %s is %s (%s).%s"
            .formatted(
                clause,
                limit.wording(),
                met ? "met" : "not met",
                limit.citation(),
                met ? "" : " " + remedy);
    return met
        ? new Verdict.Met(gate, aspect, measured, Optional.of(limit), factIds, sentence)
        : new Verdict.NotMet(gate, aspect, measured, Optional.of(limit), factIds, sentence);
  }

  /** The value is there and may not be used yet. */
  Verdict owed(Limit limit, String owed, String why) {
    return new Verdict.Owed(
        gate,
        aspect,
        owed,
        Optional.of(limit),
        factIds,
        "%s; %s. The limit is %s (%s). Bring %s."
            .formatted(clause, why, limit.wording(), limit.citation(), owed));
  }

  /** Evidence that a limit asks for and nothing speaks of. */
  static Verdict missing(Gate gate, String aspect, Limit limit, String owed) {
    return new Verdict.Owed(
        gate,
        aspect,
        owed,
        Optional.of(limit),
        List.of(),
        "Nothing is on record of what the limit of %s asks for (%s). Bring %s."
            .formatted(limit.wording(), limit.citation(), owed));
  }

  /** A count that cannot be: more was found than was looked at. */
  static Verdict impossible(
      Gate gate, String aspect, Limit limit, long found, long of, String what, String factId) {
    return new Verdict.Owed(
        gate,
        aspect,
        "a correction of fact " + factId,
        Optional.of(limit),
        List.of(factId),
        "Fact %s has %s among %d looked at, which cannot be. The limit is %s (%s). Correct the fact."
            .formatted(factId, Counted.of(found, what), of, limit.wording(), limit.citation()));
  }
}
