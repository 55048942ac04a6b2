package org.kornspur.processors.finding;

import java.time.Instant;
import java.util.List;
import org.kornspur.contract.Category;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.statement.Coded;
import org.kornspur.ingest.statement.Statement;
import org.kornspur.ingest.statement.Value.Fact;
import org.kornspur.ingest.statement.Value.Person;

/** Why an act may not be signed now. */
public sealed interface ActFinding extends Finding {
  record CropsAreNotReleased() implements ActFinding {}

  record AlreadyCondemned(Subject subject, List<Fact> acts) implements ActFinding {}

  record CondemnedNotReleased(Subject subject, List<Fact> acts) implements ActFinding {}

  record NotFit(Subject subject, List<Coded> against) implements ActFinding {}

  record EvidenceOwed(Subject subject, List<Coded> against) implements ActFinding {}

  record Inherited(Subject origin, Coded finding) implements ActFinding {}

  record RawHarvestNotReleased(Subject subject) implements ActFinding {}

  /** All of it went into other lots, which are released in its place. */
  record NothingLeft(Subject subject, List<Subject> into) implements ActFinding {}

  record AlreadyReleased(Subject subject, List<Statement> signatures) implements ActFinding {}

  record SignedAlready() implements ActFinding {}

  record NameCondemnation(Subject subject, List<Fact> acts) implements ActFinding {}

  record NoSuchCondemnation(Fact act, Subject subject) implements ActFinding {}

  record NotReleased(Subject subject) implements ActFinding {}

  record AlreadySuspended(Subject subject, List<Statement> signatures) implements ActFinding {}

  record CondemnedHasNoCategory(Subject subject, List<Fact> acts) implements ActFinding {}

  record CategoryUnknown(Subject subject) implements ActFinding {}

  record CategoryNotLower(Subject subject, Category now, Category to) implements ActFinding {}

  record SignedBy(Person person, Instant at) implements ActFinding {}
}
