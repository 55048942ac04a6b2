package org.kornspur.processors.gates;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.processors.finding.Evidence;
import org.kornspur.processors.finding.Finding;
import org.kornspur.processors.finding.MarkerFinding;
import org.kornspur.processors.statistics.MarkerCorrection;
import org.kornspur.processors.statistics.MarkerCorrection.Share;

/**
 * A count of bad units by a method that may err.
 *
 * <p>What a marker test called bad speaks against a lot as it was counted, whatever the rates of
 * its method: to state them never makes a lot better. It speaks for a lot only with rates that can
 * tell the limit; a test without them owes them, because silence is no proof of a method without
 * errors.
 *
 * @param found units called bad
 * @param examined units examined
 * @param errors errors of the method; empty where a marker test does not state them
 */
record MethodCount(int found, int examined, Optional<MarkerCorrection> errors) {
  private static final double CONFIDENCE = 0.95;

  Share asCounted() {
    return MarkerCorrection.NONE.trueShare(found, examined, CONFIDENCE);
  }

  /** With the errors taken out; empty where they are not known, or nothing can be told. */
  Optional<Share> corrected() {
    return errors
        .filter(MarkerCorrection::separates)
        .map(method -> method.trueShare(found, examined, CONFIDENCE));
  }

  /** Whichever speaks more against the lot. */
  Share worse() {
    Share counted = asCounted();
    return corrected().filter(share -> share.share() > counted.share()).orElse(counted);
  }

  /** Share that is called bad where {@code share} is, but never more than that. */
  double called(double share) {
    return errors
        .filter(MarkerCorrection::separates)
        .map(method -> Math.min(share, method.apparent(share)))
        .orElse(share);
  }

  /** Of the units examined, those that the method would not have missed had they been bad. */
  double telling() {
    return examined * (1 - errors.map(MarkerCorrection::falseNegative).orElse(0.0));
  }

  boolean canTell(double limit) {
    return errors.filter(method -> method.canTell(limit)).isPresent();
  }

  /** What the errors make of the count; nothing for a method without. */
  List<Finding> findings(double limit) {
    if (errors.isEmpty()) {
      return List.of(new MarkerFinding.NoErrorRates());
    }
    MarkerCorrection method = errors.get();
    if (method.equals(MarkerCorrection.NONE)) {
      return List.of();
    }
    Amount falsePositive = percent(method.falsePositive());
    Amount falseNegative = percent(method.falseNegative());
    List<Finding> findings = new ArrayList<>();
    corrected()
        .ifPresentOrElse(
            share ->
                findings.add(
                    new MarkerFinding.Corrected(
                        percent(share.share()),
                        percent(share.interval().lower()),
                        percent(share.interval().upper()),
                        percent(CONFIDENCE),
                        falsePositive,
                        falseNegative)),
            () -> findings.add(new MarkerFinding.TellsNothing(falsePositive, falseNegative)));
    if (method.separates() && !method.canTell(limit)) {
      findings.add(new MarkerFinding.LimitWithinErrors(falsePositive, percent(limit)));
    }
    return findings;
  }

  /** What is to be brought before the count speaks for the lot. */
  Optional<Evidence> owed(double limit) {
    if (errors.isEmpty()) {
      return Optional.of(new Evidence.ErrorRatesOfMethod());
    }
    return canTell(limit) ? Optional.empty() : Optional.of(new Evidence.CountByOtherMethod());
  }

  private static Amount percent(double share) {
    return Amount.percent(100 * share);
  }
}
