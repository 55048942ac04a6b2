package org.kornspur.processors.finding;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.statement.Statement;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.ingest.statement.Value.Fact;
import org.kornspur.ingest.statement.Value.Person;
import org.kornspur.processors.standards.Quantity;

/** Where seed comes from, and who says so. */
public sealed interface OriginFinding extends Finding {
  record OnRecord(Subject subject) implements OriginFinding {}

  record OwnAncestor(Subject subject, List<Subject> through) implements OriginFinding {}

  record InOrder(LocalDate in, LocalDate out) implements OriginFinding {}

  record OutBeforeIn(LocalDate out, LocalDate in, int days, Fact by) implements OriginFinding {}

  /** Tests of seed that was not there yet. */
  record TestedBefore(LocalDate in, List<Fact> tests) implements OriginFinding {}

  /**
   * Tests of bought-in seed from before its year of harvest.
   *
   * @param cropYear year, as digits
   */
  record TestedBeforeCropYear(String cropYear, List<Fact> tests) implements OriginFinding {}

  /**
   * @param cropYear year, as digits
   */
  record HarvestOfOtherYear(String cropYear, LocalDate on) implements OriginFinding {}

  /** Looks at plants in the field that stood no more. */
  record SeenAfterHarvest(LocalDate harvested, List<Fact> looks) implements OriginFinding {}

  /** Looks at a crop in flower, far from the days on which it flowers by its declaration. */
  record SeenFarFromFlowering(int daysAllowed, List<Fact> looks) implements OriginFinding {}

  record SownBeyondOutline(Amount sown, Amount outline) implements OriginFinding {}

  /** A visit that counted over more ground than the crop has. */
  record CountedBeyondOutline(Amount counted, Amount outline) implements OriginFinding {}

  /** What no rye does. */
  record Unusual(Quantity what, Amount found, Statement usual) implements OriginFinding {}

  /** A test of more of a sample than was sent in. */
  record MoreThanSubmitted(Fact test, Amount tested, Amount submitted) implements OriginFinding {}

  record NoOrigin(Subject subject) implements OriginFinding {}

  record UnknownRulebook(String rulebook) implements OriginFinding {}

  record UnconfirmedCorrections(List<Statement> first, Optional<Integer> further)
      implements OriginFinding {}

  record WouldSupersede(Fact by, Optional<Person> inNameOf, Fact fact) implements OriginFinding {}

  record WouldReplace(Fact by, Person inNameOf) implements OriginFinding {}

  /** Two corrections of one fact, of which neither corrects the other. */
  record SeveralCorrections(Fact fact, List<Fact> corrections) implements OriginFinding {}

  record CorrectedByOtherKind(Fact fact, FactType kind, Fact by, FactType byKind)
      implements OriginFinding {}

  /**
   * Declarations of one subject that differ, of which none corrects another.
   *
   * @param fields names of the fields in which they differ
   */
  record SeveralDeclarations(Subject subject, List<Fact> declarations, List<String> fields)
      implements OriginFinding {}

  /** Records of a lot's origin that do not go together. */
  record SeveralOrigins(Subject subject, List<Fact> records) implements OriginFinding {}

  record SeveralMakers(int enterprises, Subject subject) implements OriginFinding {}
}
