package org.kornspur.processors.finding;

import java.util.List;
import java.util.Optional;
import org.kornspur.contract.PollenSourceKind;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.statement.Coded;
import org.kornspur.ingest.statement.Statement;
import org.kornspur.ingest.statement.Value;
import org.kornspur.ingest.statement.Value.Amount;

/** Foreign pollen near a crop. */
public sealed interface IsolationFinding extends Finding {
  record NoSource(Amount within) implements IsolationFinding {}

  record Nearest(Statement source) implements IsolationFinding {}

  record MostThreatening(Statement source) implements IsolationFinding {}

  record ReportedByGrower(Statement source) implements IsolationFinding {}

  /** The same component by name, which was found not to be it. */
  record SameComponent(Statement source) implements IsolationFinding {}

  /** A stand that does not flower together and counts all the same. */
  record StandsApart(Statement source) implements IsolationFinding {}

  /** Whether it ended before the crop flowered, or began after, is not known. */
  record FloweringUnknown(Statement source) implements IsolationFinding {}

  record NotFloweringTogether(List<Statement> sources) implements IsolationFinding {}

  record Source(Subject source, Optional<PollenSourceKind> kind, Amount distance)
      implements IsolationFinding {
    private static final String CODE = Coded.codeOf(Source.class);

    /** The source of foreign pollen that these findings name first; empty where they name none. */
    public static Optional<Subject> in(List<Coded> findings) {
      return findings.stream()
          .flatMap(finding -> finding.argument("source").stream())
          .filter(Value.Said.class::isInstance)
          .map(value -> ((Value.Said) value).said())
          .filter(said -> said.code().equals(CODE))
          .flatMap(said -> said.argument("source").stream())
          .filter(Value.OfSubject.class::isInstance)
          .map(subject -> ((Value.OfSubject) subject).subject())
          .findFirst();
    }
  }
}
