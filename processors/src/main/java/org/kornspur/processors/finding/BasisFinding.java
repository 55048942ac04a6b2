package org.kornspur.processors.finding;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import org.kornspur.contract.TestKind;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.ingest.statement.Value.Fact;

/** What is to be said of what a verdict rests on. */
public sealed interface BasisFinding extends Finding {
  record Nothing() implements BasisFinding {}

  record ImpossibleCount(Fact fact, Thing what, int found, int of) implements BasisFinding {}

  /** A result that was looked at and does not count. */
  record SetAside(Fact fact, Amount value, WhySetAside why) implements BasisFinding {}

  /** A result of a laboratory that was not declared for such a test on that day. */
  record LaboratoryNotDeclared(Fact fact, Subject laboratory, TestKind test, LocalDate on)
      implements BasisFinding {}

  record NoLaboratory(Fact fact, TestKind test) implements BasisFinding {}

  /** A result of a sample that does not stand for the lot. */
  record OfOtherSample(Fact fact, String sample) implements BasisFinding {}

  /** Beyond the limit, and another test may still settle it: until then no lot is free of it. */
  record NotSettled() implements BasisFinding {}

  record NotJudged(String kind, Optional<String> message) implements BasisFinding {}

  record Unreadable(List<String> keys, Optional<Integer> further) implements BasisFinding {}

  record JudgingFailed(String kind) implements BasisFinding {}

  /** What an earlier release recorded as an English sentence. */
  record Recorded(String sentence) implements BasisFinding {}
}
