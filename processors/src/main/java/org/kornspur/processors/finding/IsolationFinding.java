package org.kornspur.processors.finding;

import java.util.List;
import java.util.Optional;
import org.kornspur.contract.PollenSourceKind;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.statement.Statement;
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
      implements IsolationFinding {}
}
