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

  /** Looks at plants before they were sown, or in flower before they can have flowered. */
  record SeenBeforeItGrew(LocalDate sown, List<Fact> looks, int leastDaysToFlower)
      implements OriginFinding {}

  /** Looks at ears or flowers in months in which rye has none. */
  record SeenInWinter(List<Fact> looks) implements OriginFinding {}

  /** Looks at plants in the field that stood no more. */
  record SeenAfterHarvest(LocalDate harvested, List<Fact> looks) implements OriginFinding {}

  /** Looks at a crop in flower, far from the days on which it flowers by its declaration. */
  record SeenFarFromFlowering(int daysAllowed, List<Fact> looks) implements OriginFinding {}

  record SownBeyondOutline(Amount sown, Amount outline) implements OriginFinding {}

  /** Another seed crop of the same year on ground of this one. */
  record OnOneGround(Subject crop, Amount common) implements OriginFinding {}

  /** A visit that counted over more ground than the crop has. */
  record CountedBeyondOutline(Amount counted, Amount outline) implements OriginFinding {}

  /** Harvested before a kernel can be ripe, counted from the last day in flower. */
  record HarvestedUnripe(LocalDate harvested, LocalDate lastInFlower, int leastDays)
      implements OriginFinding {}

  /** Plots of seed of which no plant can be counted yet. */
  record PlotTooEarly(LocalDate from, List<Fact> plots) implements OriginFinding {}

  /** Seed that was sown on a day from which nothing is harvested in the crop's year. */
  record SownOutOfSeason(LocalDate sown, String cropYear) implements OriginFinding {}

  /** More seed had gone out by a day than had come in. */
  record OutBeforeThere(LocalDate on, Amount out, Amount in, Fact movement)
      implements OriginFinding {}

  /** Much less, or much more, seed on a hectare than anybody sows. */
  record SownUnusually(Amount rate, Statement usual) implements OriginFinding {}

  /** What no rye does. */
  record Unusual(Quantity what, Amount found, Statement usual) implements OriginFinding {}

  /** A test, or all of its kind together, of more of a sample than was sent in. */
  record MoreThanSubmitted(Fact test, Amount tested, Amount submitted) implements OriginFinding {}

  /** Samples that bear one name and were drawn otherwise. */
  record SamplesOfOneName(String sample, List<Fact> samplings) implements OriginFinding {}

  /** Deliveries whose label numbers can be none. */
  record UnreadableLabels(List<Fact> deliveries) implements OriginFinding {}

  /** Deliveries that share a label number. */
  record LabelsUsedAgain(List<Fact> deliveries) implements OriginFinding {}

  /** More plants than anybody counts in a day. */
  record CountedByNobody(int plants, int most) implements OriginFinding {}

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

  /** Tests under the name of a lot that no seed went into, by what counts now. */
  record TestsOfRenamedLot(Subject lot, List<Fact> tests) implements OriginFinding {}

  /** A test of another sample that found something else: a retest, and no correction. */
  record CorrectedByOtherSample(Fact fact, Fact by) implements OriginFinding {}

  /** A correction that is not of this subject, so that the corrected fact counts on here. */
  record CorrectedElsewhere(Fact fact, Fact by, Subject subject) implements OriginFinding {}

  /** A movement of seed that counts for where it came from, and is corrected where it came to. */
  record StillTold(Fact fact, Subject parent, Subject subject) implements OriginFinding {}

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
