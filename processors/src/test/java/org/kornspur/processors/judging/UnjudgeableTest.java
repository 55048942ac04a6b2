package org.kornspur.processors.judging;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import org.apache.avro.specific.SpecificRecord;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.kornspur.contract.Category;
import org.kornspur.contract.CropRole;
import org.kornspur.contract.FactHeader;
import org.kornspur.contract.GeoPoint;
import org.kornspur.contract.MoistureTest;
import org.kornspur.contract.Release;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.intake.Problem;
import org.kornspur.ingest.problem.NumberProblem;
import org.kornspur.ingest.problem.Remedy;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.ingest.statement.Value.Fact;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.Entry;
import org.kornspur.processors.dossier.InheritedFinding;
import org.kornspur.processors.dossier.Report;
import org.kornspur.processors.finding.Advice;
import org.kornspur.processors.finding.BasisFinding;
import org.kornspur.processors.finding.ContractFinding;
import org.kornspur.processors.finding.Evidence;
import org.kornspur.processors.finding.Fault;
import org.kornspur.processors.fixture.Dossiers;
import org.kornspur.processors.fixture.Facts;
import org.kornspur.processors.fixture.Verdicts;
import org.kornspur.processors.gates.GateRule;
import org.kornspur.processors.release.Assessment;
import org.kornspur.processors.release.LotRelease.Step;
import org.kornspur.processors.release.ReleaseSheet;
import org.kornspur.processors.standards.Rulebook;
import org.kornspur.processors.standards.Rulebooks;
import org.kornspur.processors.verdict.Fitness;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Measured;
import org.kornspur.processors.verdict.Verdict;

/**
 * Whatever breaks while a dossier is judged, the judging ends with a standing: what could not be
 * judged is owed under its own gate, the other gates are heard, and children are told.
 */
class UnjudgeableTest {

  /** A gate that is made of a function, under a name of its own. */
  private record Rule(Gate gate, Function<Dossier, List<Verdict>> rule) implements GateRule {
    @Override
    public List<Verdict> judge(Dossier dossier, Rulebook rulebook) {
      return rule.apply(dossier);
    }
  }

  private static final GateRule ERGOT_MET =
      new Rule(Gate.ERGOT, lot -> List.of(met(Gate.ERGOT, 1)));

  @Test
  void whatOneGateThrowsHidesNoOtherVerdict() {
    GateRule broken =
        new Rule(
            Gate.BLEND_SHARE,
            lot -> {
              throw new IllegalArgumentException("An interval from NaN to NaN.");
            });

    Outcome outcome = judge(lot(), broken, ERGOT_MET, notMet(Gate.OFF_TYPES));

    Standing standing = outcome.standing().orElseThrow();
    assertThat(standing.state()).isEqualTo(Fitness.NOT_FIT);
    assertThat(standing.verdicts()).extracting(Verdict::gate).contains(Gate.ERGOT);
    Verdict.Owed owed = owed(standing, Gate.BLEND_SHARE);
    assertThat(owed.findings())
        .containsExactly(
            new BasisFinding.NotJudged(
                    "IllegalArgumentException", Optional.of("An interval from NaN to NaN."))
                .coded());
    assertThat(owed.factIds()).containsExactly("d1", "m1", "m2");
    assertThat(owed.evidence())
        .containsExactly(new Evidence.Correction(Fact.each(owed.factIds())).coded());
    assertThat(owed.advice()).containsExactly(new Advice.CorrectOrReport().coded());
    assertThat(outcome.faults()).extracting(Fault::gate).containsExactly(Gate.BLEND_SHARE);
  }

  @ParameterizedTest
  @EnumSource(Gate.class)
  void whicheverGateBreaksNothingIsFit(Gate gate) {
    GateRule broken =
        new Rule(
            gate,
            lot -> {
              throw new IllegalStateException("Cannot be");
            });

    Standing standing = judge(lot(), broken, ERGOT_MET).standing().orElseThrow();

    assertThat(standing.state()).isEqualTo(Fitness.EVIDENCE_OWED);
    assertThat(owed(standing, gate).findings())
        .containsExactly(
            new BasisFinding.NotJudged("IllegalStateException", Optional.of("Cannot be")).coded());
  }

  @Test
  void aStackThatOverflowsIsAFaultLikeAnyOther() {
    Outcome outcome = judge(lot(), new Rule(Gate.COMPONENTS, UnjudgeableTest::endless), ERGOT_MET);

    assertThat(outcome.standing().orElseThrow().state()).isEqualTo(Fitness.EVIDENCE_OWED);
    assertThat(owed(outcome.standing().orElseThrow(), Gate.COMPONENTS).findings())
        .containsExactly(
            new BasisFinding.NotJudged("StackOverflowError", Optional.empty()).coded());
  }

  private static List<Verdict> endless(Dossier lot) {
    return lot == null ? List.of() : new ArrayList<>(endless(lot));
  }

  @Test
  void theFactThatBreaksAGateIsNamedAlone() {
    GateRule broken = new Rule(Gate.MOISTURE, lot -> moisture(lot, 99));

    Outcome outcome = judge(lot(), broken);

    assertThat(outcome.faults())
        .singleElement()
        .extracting(Fault::factIds)
        .asList()
        .containsExactly("m2");
  }

  /** A fact that cannot be judged must not lift what other facts say against the seed. */
  @Test
  void whatTheOtherFactsSayAgainstTheSeedIsKept() {
    GateRule broken = new Rule(Gate.MOISTURE, lot -> moisture(lot, 16));
    Dossiers lot = lot().with(Facts.moisture("l1", 30).id("m3").at("2024-12-03"));

    Standing standing = judge(lot, broken).standing().orElseThrow();

    assertThat(standing.state()).isEqualTo(Fitness.NOT_FIT);
    assertThat(standing.verdicts())
        .filteredOn(verdict -> verdict.gate() == Gate.MOISTURE)
        .extracting(verdict -> verdict.getClass().getSimpleName())
        .containsExactlyInAnyOrder("NotMet", "Owed");
  }

  /** Not met above {@code limit}; breaks on the second test. */
  private static List<Verdict> moisture(Dossier lot, double limit) {
    return lot.facts(MoistureTest.class).stream()
        .map(
            test -> {
              if (test.getHeader().getFactId().equals("m2")) {
                throw new IllegalStateException("Cannot be");
              }
              double percent = test.getMoisturePercent();
              return percent <= limit ? met(Gate.MOISTURE, percent) : notMetVerdict(Gate.MOISTURE);
            })
        .toList();
  }

  @ParameterizedTest
  @ValueSource(doubles = {Double.NaN, Double.POSITIVE_INFINITY, Double.NEGATIVE_INFINITY})
  void aValueThatIsNoFiniteNumberIsNeverMet(double value) {
    for (Measured measured :
        List.of(
            new Measured(value, "%", 1, Optional.empty()),
            new Measured(1, "%", value, Optional.empty()),
            new Measured(1, "%", 1, Optional.of(new Measured.Interval(value, 1, 0.95))),
            new Measured(1, "%", 1, Optional.of(new Measured.Interval(0, value, 0.95))))) {
      Verdict met = Verdicts.met(Gate.GERMINATION, "a", measured, "m1");

      Standing standing =
          judge(lot(), new Rule(Gate.GERMINATION, lot -> List.of(met))).standing().orElseThrow();

      assertThat(standing.state()).isEqualTo(Fitness.EVIDENCE_OWED);
      assertThat(owed(standing, Gate.GERMINATION).factIds()).containsExactly("m1");
    }
  }

  @Test
  void aChildOfWhatCouldNotBeJudgedWaitsToo() {
    GateRule broken =
        new Rule(
            Gate.POST_CONTROL,
            lot -> {
              throw new IllegalStateException("Cannot be");
            });
    Dossiers parent = lot().with(Facts.split("l1").into("l2", 50).id("s1"));

    Report report = judge(parent, broken).reports().get(0);
    Dossier child =
        new Dossier(
            Subject.lot("l2"),
            List.of(entry(Facts.split("l1").into("l2", 50).id("s1").fact())),
            List.of(report));

    Standing standing = judge(child).standing().orElseThrow();
    assertThat(standing.state()).isEqualTo(Fitness.EVIDENCE_OWED);
    assertThat(standing.inherited())
        .extracting(InheritedFinding::gate)
        .containsExactly(Gate.POST_CONTROL);
  }

  /** What is told of a lot's tests is no gate; it breaks where kernels have no mass. */
  @Test
  void measuresThatCannotBeReckonedAreOwedAndToldToNobody() {
    Dossiers lot =
        lot()
            .with(
                Facts.sampling("l1", 40, 1000, 40).id("sampling"),
                Facts.kernelWeight("l1", Double.NaN, Double.NaN).id("k1"),
                Facts.split("l1").into("l2", 50).at("2024-09-20").id("s1"));

    Outcome outcome = judge(lot, ERGOT_MET);

    assertThat(outcome.standing().orElseThrow().state()).isEqualTo(Fitness.EVIDENCE_OWED);
    assertThat(outcome.faults())
        .singleElement()
        .satisfies(
            fault -> {
              assertThat(fault.gate()).isEqualTo(Gate.ORIGIN);
              assertThat(fault.aspect()).isEqualTo("measures");
              assertThat(fault.factIds()).containsExactly("k1");
            });
    Report.FromParent told = (Report.FromParent) outcome.reports().get(0);
    assertThat(told.measures().thousandKernelWeightG()).isEmpty();
    assertThat(told.troubles()).extracting(InheritedFinding::aspect).contains("measures");
  }

  @Test
  void aCropThatCannotBePlacedIsNotTakenToBeIsolated() {
    List<GeoPoint> bowTie =
        List.of(
            new GeoPoint(10.0, 52.0),
            new GeoPoint(10.01, 52.01),
            new GeoPoint(10.01, 52.0),
            new GeoPoint(10.0, 52.01));
    Dossiers crop =
        Dossiers.crop("c1")
            .with(
                Facts.crop("c1", CropRole.MAINTAINER).id("c-1"),
                Facts.crop("c1", CropRole.MAINTAINER)
                    .with(declared -> declared.setOutline(bowTie))
                    .id("c-2")
                    .at("2024-08-01"));

    Outcome outcome = judge(crop);

    assertThat(owed(outcome.standing().orElseThrow(), Gate.ISOLATION).factIds())
        .containsExactly("c-2");
    assertThat(outcome.place()).as("where it was last known to lie").isPresent();
    assertThat(outcome.place().orElseThrow().factId()).isEqualTo("c-1");
  }

  /** An act without its signature: no release can be told from it, and the paper says so too. */
  @Test
  void aReleaseThatCannotBeToldIsHeldBack() {
    Instant at = Instant.parse("2024-12-05T10:00:00Z");
    FactHeader header = new FactHeader("r1", "person-1", at, at, "act", null, null);
    Dossier whole = lot().dossier();
    List<Entry> entries = new ArrayList<>(whole.entries());
    entries.add(entry(new Release(header, "l1", "good", null, null)));
    Dossier dossier = new Dossier(whole.subject(), entries, List.of());
    Judge judge = judge(ERGOT_MET);

    Outcome outcome = judge.judge(dossier);
    ReleaseSheet sheet = ReleaseSheet.of(dossier, judge::assess);

    Standing standing = outcome.standing().orElseThrow();
    assertThat(standing.state()).isEqualTo(Fitness.EVIDENCE_OWED);
    assertThat(standing.release().orElseThrow().step()).isEqualTo(Step.SUSPENDED);
    assertThat(owed(standing, Gate.ORIGIN).factIds()).containsExactly("r1");
    assertThat(sheet.assessment().verdicts()).isEqualTo(standing.verdicts());
    assertThat(sheet.release()).isEqualTo(standing.release().orElseThrow());
  }

  @Test
  void aFactBeyondTheLimitsOfTodayProvesNothing() {
    Dossiers lot = lot().with(Facts.moisture("l1", 1e-180).id("m3").at("2024-12-03"));

    Assessment assessment = Judge.by(Rulebooks.bundled()).assess(lot.dossier());

    assertThat(assessment.isFit()).isFalse();
    Problem beyond =
        Problem.of(
            "moisturePercent",
            1e-180,
            new NumberProblem.OutOfRange(
                Amount.percent(1),
                Amount.percent(60),
                new Remedy("MoistureTest", "moisturePercent")));
    assertThat(assessment.verdicts())
        .filteredOn(verdict -> verdict.aspect().equals("limits of the contract"))
        .singleElement()
        .satisfies(
            verdict -> {
              assertThat(verdict.factIds()).containsExactly("m3");
              assertThat(verdict.findings())
                  .containsExactly(
                      new ContractFinding.BeyondLimits(
                              List.of(
                                  new ContractFinding.FactBeyond(
                                      new Fact("m3"),
                                      "moisturePercent",
                                      beyond.value(),
                                      beyond.limit())))
                          .coded());
              assertThat(((Verdict.Owed) verdict).evidence())
                  .containsExactly(new Evidence.Correction(List.of(new Fact("m3"))).coded());
            });
  }

  private static Dossiers lot() {
    return Dossiers.lot("l1")
        .with(
            Facts.declared("l1", Facts.MAINTAINER, Category.BASIC, 100).id("d1"),
            Facts.moisture("l1", 12).id("m1").at("2024-12-01"),
            Facts.moisture("l1", 13).id("m2").at("2024-12-02"));
  }

  private static Judge judge(GateRule... rules) {
    return Judge.by(Rulebooks.bundled(), List.of(rules));
  }

  private static Outcome judge(Dossiers dossier, GateRule... rules) {
    return judge(dossier.dossier(), rules);
  }

  private static Outcome judge(Dossier dossier, GateRule... rules) {
    return judge(rules).judge(dossier);
  }

  private static Verdict.Owed owed(Standing standing, Gate gate) {
    return standing.verdicts().stream()
        .filter(verdict -> verdict.gate() == gate)
        .filter(Verdict.Owed.class::isInstance)
        .map(Verdict.Owed.class::cast)
        .findFirst()
        .orElseThrow();
  }

  private static Entry entry(SpecificRecord fact) {
    return new Entry(fact, Optional.empty());
  }

  private static Verdict met(Gate gate, double value) {
    return Verdicts.met(gate, "", new Measured(value, "", 0, Optional.empty()));
  }

  private static GateRule notMet(Gate gate) {
    return new Rule(gate, dossier -> List.of(notMetVerdict(gate)));
  }

  private static Verdict notMetVerdict(Gate gate) {
    return Verdicts.notMet(gate, "", new Measured(1, "", -1, Optional.empty()));
  }
}
