package org.kornspur.processors.gates;

import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.kornspur.ingest.statement.Coded;
import org.kornspur.ingest.statement.Statement;
import org.kornspur.ingest.statement.Value.Fact;
import org.kornspur.processors.finding.Advice;
import org.kornspur.processors.finding.Aspect;
import org.kornspur.processors.finding.BasisFinding;
import org.kornspur.processors.finding.Evidence;
import org.kornspur.processors.finding.Finding;
import org.kornspur.processors.finding.Thing;
import org.kornspur.processors.standards.Limit;
import org.kornspur.processors.statistics.Interval;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Measured;
import org.kornspur.processors.verdict.Verdict;

/**
 * What a gate found, ready to be made a verdict.
 *
 * @param at gate and aspect
 * @param factIds facts that it rests on
 * @param findings what was found, the most telling first
 */
record Findings(GateAspect at, List<String> factIds, List<Finding> findings) {

  /**
   * A gate, and which of its verdicts.
   *
   * @param key key of the aspect, stored and compared; empty where the gate has one verdict
   */
  record GateAspect(Gate gate, String key, Optional<Aspect> aspect) {
    static GateAspect of(Gate gate) {
      return new GateAspect(gate, "", Optional.empty());
    }

    static GateAspect of(Gate gate, String key, Aspect aspect) {
      return new GateAspect(gate, key, Optional.of(aspect));
    }
  }

  static Findings of(GateAspect at, List<String> factIds, Finding... findings) {
    return new Findings(at, factIds, List.of(findings));
  }

  static Findings of(Gate gate, List<String> factIds, Finding... findings) {
    return of(GateAspect.of(gate), factIds, findings);
  }

  /** With something more that was found. */
  Findings and(Finding further) {
    return new Findings(at, factIds, Stream.concat(findings.stream(), Stream.of(further)).toList());
  }

  Findings and(List<? extends Finding> further) {
    return new Findings(at, factIds, Stream.concat(findings.stream(), further.stream()).toList());
  }

  Findings and(Optional<? extends Finding> further) {
    return further.map(this::and).orElse(this);
  }

  /** Met where the limit holds. */
  Verdict against(double value, Limit limit, List<Advice> remedies) {
    return against(value, Optional.empty(), limit, remedies);
  }

  Verdict against(
      double value, Optional<Measured.Interval> interval, Limit limit, List<Advice> remedies) {
    return decided(
        limit.holds(value),
        new Measured(value, limit.unit(), limit.margin(value), interval),
        limit,
        remedies);
  }

  /** Decided by a rule of the gate that is more than a comparison with the limit. */
  Verdict decided(boolean met, Measured measured, Limit limit, List<Advice> remedies) {
    return decided(met, measured, Optional.of(limit), remedies);
  }

  /** Decided by what needs no limit. */
  Verdict decided(boolean met, Measured measured, Optional<Limit> limit, List<Advice> remedies) {
    return met
        ? new Verdict.Met(
            at.gate(), at.key(), about(), measured, limit, factIds, coded(findings), List.of())
        : new Verdict.NotMet(
            at.gate(),
            at.key(),
            about(),
            measured,
            limit,
            factIds,
            coded(findings),
            coded(remedies));
  }

  /** Met where there is none of what must not be at all. */
  Verdict mustBeNone(int found, String unit, Advice... remedies) {
    return decided(
        found == 0, Measured.exact(found, unit, -found), Optional.empty(), List.of(remedies));
  }

  /** Evidence is owed, or what there is may not be used yet. */
  Verdict.Owed owed(Limit limit, Evidence... evidence) {
    return owed(Optional.of(limit), evidence);
  }

  /** Evidence that no limit asks for is owed. */
  Verdict.Owed owed(Evidence... evidence) {
    return owed(Optional.empty(), evidence);
  }

  Verdict.Owed owed(Optional<Limit> limit, Evidence... evidence) {
    return owed(limit, List.of(evidence), List.of());
  }

  Verdict.Owed owed(Optional<Limit> limit, List<Evidence> evidence, List<Advice> advice) {
    return new Verdict.Owed(
        at.gate(),
        at.key(),
        about(),
        coded(evidence),
        limit,
        factIds,
        coded(findings),
        coded(advice));
  }

  /** Evidence that a limit asks for and nothing speaks of. */
  static Verdict missing(GateAspect at, Limit limit, Evidence evidence) {
    return of(at, List.of(), new BasisFinding.Nothing()).owed(limit, evidence);
  }

  static Verdict missing(Gate gate, Limit limit, Evidence evidence) {
    return missing(GateAspect.of(gate), limit, evidence);
  }

  /** A count that cannot be: more was found than was looked at. */
  static Verdict impossible(
      GateAspect at,
      Limit limit,
      Thing what,
      int found,
      int among,
      String factId,
      Finding... further) {
    Fact fact = new Fact(factId);
    Finding impossible = new BasisFinding.ImpossibleCount(fact, what, found, among);
    return new Findings(
            at, List.of(factId), Stream.concat(Stream.of(impossible), Stream.of(further)).toList())
        .owed(limit, new Evidence.Correction(List.of(fact)));
  }

  static Measured.Interval measured(Interval interval) {
    return new Measured.Interval(interval.lower(), interval.upper(), interval.confidence());
  }

  /** An interval of shares as one of percent. */
  static Measured.Interval measuredPercent(Interval interval) {
    return new Measured.Interval(
        100 * interval.lower(), 100 * interval.upper(), interval.confidence());
  }

  private Optional<Coded> about() {
    return at.aspect().map(Statement::coded);
  }

  private static List<Coded> coded(List<? extends Statement> statements) {
    return statements.stream().map(Statement::coded).toList();
  }
}
