package org.kornspur.processors.finding;

import java.util.List;
import java.util.Optional;
import org.kornspur.contract.Category;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.statement.Coded;
import org.kornspur.ingest.statement.Statement;
import org.kornspur.ingest.statement.Value.Fact;
import org.kornspur.ingest.statement.Value.Person;
import org.kornspur.processors.verdict.Gate;

/** Why a release is held back. */
public sealed interface ReleaseFinding extends Finding {
  record SuspendedBy(Person person, String reason) implements ReleaseFinding {}

  record CondemnedBy(Person person, String reason) implements ReleaseFinding {}

  /** By facts that came after it. */
  record SuspendedByFacts(List<Statement> changes, List<Fact> facts) implements ReleaseFinding {}

  record Changed(
      Gate gate,
      Optional<Coded> about,
      Optional<Subject> inheritedFrom,
      String before,
      String after)
      implements ReleaseFinding {}

  /** By a change of the rules; no fact came. */
  record SuspendedByRules(List<Statement> changes) implements ReleaseFinding {}

  record OtherLimit(
      Gate gate, Optional<Coded> about, Optional<Statement> before, Optional<Statement> now)
      implements ReleaseFinding {}

  record OtherSeed(Statement released, Statement now) implements ReleaseFinding {}

  record SeedUnknown() implements ReleaseFinding {}

  record SeedIs(
      String hybrid, String seed, String kind, Category category, int cropYear, String rulebook)
      implements ReleaseFinding {}

  record NotDecided(String kind) implements ReleaseFinding {}
}
