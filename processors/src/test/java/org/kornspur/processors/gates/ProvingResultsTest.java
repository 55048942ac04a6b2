package org.kornspur.processors.gates;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.kornspur.contract.Category;
import org.kornspur.contract.PostControlMethod;
import org.kornspur.contract.TestKind;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.statement.Value.Fact;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.Report.Accredited;
import org.kornspur.processors.finding.BasisFinding;
import org.kornspur.processors.finding.Evidence;
import org.kornspur.processors.fixture.Dossiers;
import org.kornspur.processors.fixture.Draft;
import org.kornspur.processors.fixture.Facts;
import org.kornspur.processors.judging.Judge;
import org.kornspur.processors.standards.Rulebooks;
import org.kornspur.processors.verdict.Fitness;
import org.kornspur.processors.verdict.Gate;

/**
 * Results count only of accredited laboratories: Seed Ordinance (SaatV) section 12 has the tests
 * made by the recognised testing body; that others count against the seed is our own rule.
 */
class ProvingResultsTest {
  private static final LocalDate TESTED = LocalDate.of(2024, 9, 10);

  @Test
  void aLotIsFitByTestsOfADeclaredLaboratoryAlone() {
    assertThat(state(lot(Dossiers.lot("l1")))).isEqualTo(Fitness.FIT);
    assertThat(state(lot(Dossiers.lotWithoutLaboratory("l1")))).isEqualTo(Fitness.EVIDENCE_OWED);
  }

  @Test
  void aResultOfALaboratoryThatNobodyDeclaredAsksForTheDeclaration() {
    Judged judged = germination(Dossiers.lotWithoutLaboratory("l1").with(good().id("g1")));

    assertThat(judged.worst()).isEqualTo("OWED");
    judged
        .asksFor(new Evidence.DeclaredLaboratory(TestKind.GERMINATION))
        .found(
            new BasisFinding.LaboratoryNotDeclared(
                new Fact("g1"), Subject.enterprise("LAB1"), TestKind.GERMINATION, TESTED));
  }

  @ParameterizedTest
  @EnumSource(TestKind.class)
  void anAccreditationIsForOneKindOfTest(TestKind kind) {
    Judged judged = germination(accredited(kind, TESTED, TESTED).with(good()));

    assertThat(judged.worst()).isEqualTo(kind == TestKind.GERMINATION ? "MET" : "OWED");
  }

  @Test
  void anAccreditationHoldsFromItsFirstDayToItsLast() {
    assertThat(byAccreditation(TESTED, TESTED)).isEqualTo("MET");
    assertThat(byAccreditation(TESTED.plusDays(1), TESTED.plusYears(1))).isEqualTo("OWED");
    assertThat(byAccreditation(TESTED.minusYears(1), TESTED.minusDays(1))).isEqualTo("OWED");
  }

  @Test
  void aBadResultCountsWhoeverMadeIt() {
    Draft<?> bad = Facts.germination("l1", 70, 70, 71, 72).id("bad");

    assertThat(germination(Dossiers.lotWithoutLaboratory("l1").with(bad)).worst())
        .isEqualTo("NOT_MET");
    assertThat(
            germination(
                    Dossiers.lot("l1")
                        .with(
                            good(),
                            Facts.germination("l1", 70, 70, 71, 72)
                                .with(test -> test.setLaboratoryId("LAB2"))))
                .worst())
        .isEqualTo("NOT_MET");
  }

  @Test
  void aGoodResultBesideItMakesAPoorOneNoBetter() {
    Draft<?> few =
        Facts.germination("l1", 95, 95).with(test -> test.setSampleId("sample of l1")).id("few");
    Draft<?> elsewhere =
        Facts.germination("l1", 95, 94, 96, 95).with(test -> test.setLaboratoryId("LAB2"));

    assertThat(germination(Dossiers.lot("l1").with(few, elsewhere)).worst()).isEqualTo("OWED");
  }

  /** A thin test of the sample that was drawn, and a whole one of a sample that was not. */
  @Test
  void aWholeTestOfASampleDrawnBadlyMakesNoThinTestGood() {
    Draft<?> thin = Facts.germination("l1", 95, 95);
    Draft<?> whole =
        Facts.germination("l1", 95, 94, 96, 95).with(test -> test.setSampleId("two handfuls"));
    Draft<?> handfuls =
        Facts.sampling("l1", 40, 1000, 2).with(drawn -> drawn.setSampleId("two handfuls"));

    Judged judged =
        germination(
            Dossiers.lot("l1").with(Facts.sampling("l1", 40, 1000, 40), handfuls, thin, whole));

    assertThat(judged.worst()).isEqualTo("OWED");
    judged.asksFor(new Evidence.TestsOfDrawnSample(List.of(FactType.GERMINATION_TEST)));
  }

  /**
   * Whatever other laboratories find, the verdict by those that are declared is no better for it.
   */
  @Property(tries = 300)
  void resultsOfOthersNeverHelp(@ForAll long seed) {
    Random random = new Random(seed);
    List<Draft<?>> declared = results(random, "LAB1");
    List<Draft<?>> all = new ArrayList<>(declared);
    all.addAll(results(random, "LAB2"));
    Collections.shuffle(all, random);
    List<String> worstFirst = List.of("NOT_MET", "OWED", "MET");

    for (Gate gate : List.of(Gate.GERMINATION, Gate.ANALYTICAL_PURITY, Gate.ERGOT)) {
      String without = judged(gate, lotWith(declared)).worst();
      String with = judged(gate, lotWith(all)).worst();
      assertThat(worstFirst.indexOf(with)).isLessThanOrEqualTo(worstFirst.indexOf(without));
    }
  }

  private static Dossiers lotWith(List<Draft<?>> facts) {
    return Dossiers.lot("l1").with(declared()).with(facts.toArray(Draft[]::new)).scheme();
  }

  private static List<Draft<?>> results(Random random, String laboratory) {
    List<Draft<?>> results = new ArrayList<>();
    for (int i = random.nextInt(3); i > 0; i--) {
      int normal = 82 + random.nextInt(15);
      results.add(
          Facts.germination("l1", normal, normal + 1, normal, normal - 1)
              .with(test -> test.setLaboratoryId(laboratory))
              .at("2024-09-" + (10 + random.nextInt(15))));
      double inert = random.nextInt(6);
      results.add(
          Facts.purity("l1", 60 * (1 + random.nextInt(2)) - inert, inert, 0)
              .with(test -> test.setLaboratoryId(laboratory)));
      int ergot = random.nextInt(7);
      int number = 1 + random.nextInt(2);
      results.add(
          Facts.otherSeeds("l1")
              .with(
                  sample ->
                      sample
                          .setErgotBodies(ergot)
                          .setSampleNumber(number)
                          .setLaboratoryId(laboratory)));
    }
    return results;
  }

  @Test
  void aMarkerTestIsOfADeclaredLaboratoryAndAPlotNeedsNone() {
    assertThat(postControl(PostControlMethod.PLOT, null).worst()).isEqualTo("MET");
    assertThat(postControl(PostControlMethod.MARKER, null).worst()).isEqualTo("OWED");
    assertThat(postControl(PostControlMethod.MARKER, "LAB2").worst()).isEqualTo("OWED");
    assertThat(postControl(PostControlMethod.MARKER, "LAB1").worst()).isEqualTo("MET");
  }

  private static Judged postControl(PostControlMethod method, String laboratory) {
    return judged(
        Gate.POST_CONTROL,
        Dossiers.lot("l1")
            .with(
                declared(),
                Facts.postControl("l1", 2000, 0)
                    .with(result -> result.setMethod(method).setLaboratoryId(laboratory))
                    .with(
                        result -> result.setFalsePositivePercent(0.1).setFalseNegativePercent(0.5)))
            .scheme());
  }

  private static String byAccreditation(LocalDate from, LocalDate to) {
    return germination(accredited(TestKind.GERMINATION, from, to).with(good())).worst();
  }

  private static Dossiers accredited(TestKind kind, LocalDate from, LocalDate to) {
    return Dossiers.lotWithoutLaboratory("l1").laboratory("LAB1", new Accredited(kind, from, to));
  }

  private static Draft<?> good() {
    return Facts.germination("l1", 95, 94, 96, 95);
  }

  private static Draft<?> declared() {
    return Facts.declared("l1", Facts.HYBRID, Category.CERTIFIED, 1000);
  }

  private static Judged germination(Dossiers lot) {
    return judged(Gate.GERMINATION, lot.with(declared()).scheme());
  }

  private static Judged judged(Gate gate, Dossiers lot) {
    GateRule rule =
        Gates.all().stream().filter(each -> each.gate() == gate).findFirst().orElseThrow();
    return Judged.by("EU", rule, lot.dossier());
  }

  private static Dossier lot(Dossiers lot) {
    return lot.with(
            declared(),
            Facts.sampling("l1", 40, 1000, 40),
            good(),
            Facts.purity("l1", 119.4, 0.5, 0.1),
            Facts.moisture("l1", 13),
            Facts.otherSeeds("l1"))
        .scheme()
        .dossier();
  }

  private static Fitness state(Dossier dossier) {
    return Judge.by(Rulebooks.bundled()).judge(dossier).standing().orElseThrow().state();
  }
}
