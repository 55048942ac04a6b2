package org.kornspur.processors.judging;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.apache.avro.specific.SpecificRecord;
import org.junit.jupiter.api.Test;
import org.kornspur.contract.Category;
import org.kornspur.contract.CropRole;
import org.kornspur.contract.Cross;
import org.kornspur.contract.FactHeader;
import org.kornspur.contract.GerminationTest;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.statement.Value.Fact;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.Entry;
import org.kornspur.processors.finding.Evidence;
import org.kornspur.processors.finding.OriginFinding;
import org.kornspur.processors.fixture.Dossiers;
import org.kornspur.processors.fixture.Facts;
import org.kornspur.processors.fixture.Facts.Plain;
import org.kornspur.processors.fixture.Verdicts;
import org.kornspur.processors.standards.Rulebooks;
import org.kornspur.processors.verdict.Fitness;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Verdict;

/** Corrections that do not settle what is so. Our own rule, no source. */
class CorrectionsTest {
  private static final Judge JUDGE = Judge.by(Rulebooks.bundled());
  private static final OriginFinding GERMINATION_BY_MOISTURE =
      new OriginFinding.CorrectedByOtherKind(
          new Fact("g1"), FactType.GERMINATION_TEST, new Fact("m1"), FactType.MOISTURE_TEST);

  @Test
  void twoCorrectionsOfOneHarvestAreOwedAnAnswer() {
    Dossiers lot =
        raw()
            .superseded(Facts.harvest("c1", "l1", 12_400).id("h1"), "h2")
            .with(Facts.harvest("c1", "l1", 5_000).id("h2").correcting("h1", "typing error"));
    assertThat(origin(lot.dossier())).isEmpty();

    lot.with(Facts.harvest("c1", "l1", 10_000).id("h3").correcting("h1", "typing error"));

    Standing standing = standing(lot.dossier());
    assertThat(standing.state()).isEqualTo(Fitness.EVIDENCE_OWED);
    assertThat(standing.heldKg()).as("the later, and not both").isEqualTo(10_000);
    assertThat(origin(lot.dossier()))
        .singleElement()
        .satisfies(
            owed -> {
              assertThat(owed.findings())
                  .contains(
                      new OriginFinding.SeveralCorrections(
                              new Fact("h1"), List.of(new Fact("h2"), new Fact("h3")))
                          .coded());
              assertThat(Verdicts.evidence(List.of(owed)))
                  .contains(new Evidence.WithdrawalOfAllButOne().coded());
            });
  }

  @Test
  void aCorrectionOfACorrectionIsNone() {
    Dossier lot =
        raw()
            .superseded(Facts.harvest("c1", "l1", 12_400).id("h1"), "h2")
            .superseded(
                Facts.harvest("c1", "l1", 5_000).id("h2").correcting("h1", "typing error"), "h3")
            .with(Facts.harvest("c1", "l1", 10_000).id("h3").correcting("h2", "typing error"))
            .dossier();

    assertThat(origin(lot)).isEmpty();
  }

  @Test
  void aMoistureTestCannotCorrectAGerminationTest() {
    Dossier lot =
        Dossiers.lot("l1")
            .with(
                Facts.declared("l1", Facts.HYBRID, Category.CERTIFIED, 1000),
                Facts.sampling("l1", 40, 1000, 40),
                Facts.germination("l1", 95, 94, 96, 95).at("2024-08-20"),
                Facts.purity("l1", 119.4, 0.5, 0.1),
                Facts.otherSeeds("l1"))
            .superseded(Facts.germination("l1", 60, 60, 60, 60).id("g1").at("2024-08-25"), "m1")
            .with(Facts.moisture("l1", 13).id("m1").correcting("g1", "by mistake"))
            .scheme()
            .dossier();

    assertThat(standing(lot).state()).isEqualTo(Fitness.EVIDENCE_OWED);
    assertOwed(lot, GERMINATION_BY_MOISTURE);
  }

  /** Common practice, no source: another sample with another result is a second test. */
  @Test
  void aRetestOfAnotherSampleIsNoCorrection() {
    Plain<GerminationTest.Builder> better = Facts.germination("l1", 95, 94, 96, 95);
    Plain<GerminationTest.Builder> sameOfOtherSample = Facts.germination("l1", 60, 60, 60, 60);
    Plain<GerminationTest.Builder> otherOfOther = Facts.germination("l1", 95, 94, 96, 95);
    sameOfOtherSample.with(test -> test.setSampleId("S9"));
    otherOfOther.with(test -> test.setSampleId("S9"));

    assertThat(origin(corrected(better))).as("mistyped result").isEmpty();
    assertThat(origin(corrected(sameOfOtherSample))).as("mistyped sample").isEmpty();
    assertOwed(
        corrected(otherOfOther),
        new OriginFinding.CorrectedByOtherSample(new Fact("g1"), new Fact("g2")));
  }

  @Test
  void aRetestIsNoCorrectionInTwoSteps() {
    Dossier lot =
        Dossiers.lot("l1")
            .with(Facts.declared("l1", Facts.HYBRID, Category.CERTIFIED, 1000))
            .superseded(Facts.germination("l1", 60, 60, 60, 60).id("g1"), "g2")
            .superseded(
                Facts.germination("l1", 60, 60, 60, 60)
                    .with(test -> test.setSampleId("S9"))
                    .id("g2")
                    .correcting("g1", "wrong sample"),
                "g3")
            .with(
                Facts.germination("l1", 95, 94, 96, 95)
                    .with(test -> test.setSampleId("S9"))
                    .id("g3")
                    .correcting("g2", "wrong result"))
            .dossier();

    assertOwed(lot, new OriginFinding.CorrectedByOtherSample(new Fact("g1"), new Fact("g3")));
  }

  private static Dossier corrected(Plain<GerminationTest.Builder> correction) {
    return Dossiers.lot("l1")
        .with(Facts.declared("l1", Facts.HYBRID, Category.CERTIFIED, 1000))
        .superseded(Facts.germination("l1", 60, 60, 60, 60).id("g1"), "g2")
        .with(correction.id("g2").correcting("g1", "typing error"))
        .dossier();
  }

  @Test
  void aMoistureTestOfAnotherLotCorrectsNoGerminationTest() {
    Dossier lot =
        new Dossier(
            Subject.lot("l1"),
            List.of(
                new Entry(
                    Facts.germination("l1", 60, 60, 60, 60).id("g1").fact(),
                    Optional.of(
                        new Entry.Superseded(
                            "m1",
                            "by mistake",
                            Optional.empty(),
                            Optional.empty(),
                            Optional.of(FactType.MOISTURE_TEST)))),
                new Entry(
                    Facts.declared("l1", Facts.HYBRID, Category.CERTIFIED, 1000).fact(),
                    Optional.empty())),
            List.of());

    assertOwed(lot, GERMINATION_BY_MOISTURE);
  }

  @Test
  void aCropDeclaredAnewUnderOtherRulesIsOwedACorrection() {
    Dossiers crop =
        Dossiers.crop("c1").with(Facts.crop("c1", CropRole.F1_MIXTURE).id("d1").at("2024-05-01"));
    crop.with(
        Facts.crop("c1", CropRole.F1_MIXTURE)
            .id("d2")
            .at("2024-05-20")
            .with(later -> later.setFloweringFrom(LocalDate.of(2024, 6, 1))));
    assertThat(origin(crop.dossier())).as("the days of flowering are known later").isEmpty();

    crop.with(
        Facts.crop("c1", CropRole.F1_MIXTURE)
            .id("d3")
            .at("2024-06-20")
            .with(later -> later.setRulebookId("HOUSE").setShieldAccepted(true)));

    assertOwed(
        crop.dossier(),
        new OriginFinding.SeveralDeclarations(
            Subject.crop("c1"),
            List.of(new Fact("d1"), new Fact("d2"), new Fact("d3")),
            List.of("rulebookId", "shieldAccepted")));
  }

  @Test
  void ofTwoDeclarationsOfOneMomentNeitherIsTheLater() {
    Dossier crop =
        Dossiers.crop("c1")
            .with(
                Facts.crop("c1", CropRole.F1_MIXTURE)
                    .at("2024-05-20")
                    .with(said -> said.setFloweringFrom(LocalDate.of(2024, 6, 1))),
                Facts.crop("c1", CropRole.F1_MIXTURE)
                    .at("2024-05-20")
                    .with(said -> said.setFloweringFrom(LocalDate.of(2024, 6, 20))))
            .dossier();

    assertThat(origin(crop)).isNotEmpty();
  }

  /** The one happened later and was recorded earlier. */
  @Test
  void ofTwoCorrectionsOfADeclarationOneIsCounted() {
    Dossier lot =
        new Dossier(
            Subject.lot("l1"),
            Stream.of(
                    corrected("d2", 1000, "2024-09-01T00:00:00Z", "2024-09-01T00:00:00Z"),
                    corrected("d3", 800, "2024-08-01T00:00:00Z", "2024-10-01T00:00:00Z"))
                .map(fact -> new Entry(fact, Optional.empty()))
                .toList(),
            List.of());

    assertThat(standing(lot).heldKg()).isEqualTo(800);
  }

  private static SpecificRecord corrected(
      String id, double kg, String happenedAt, String recordedAt) {
    SpecificRecord fact =
        Facts.declared("l1", Facts.HYBRID, Category.CERTIFIED, kg)
            .id(id)
            .at(happenedAt)
            .correcting("d1", "typing error")
            .fact();
    fact.put(
        0,
        FactHeader.newBuilder(FactType.headerOf(fact))
            .setRecordedAt(Instant.parse(recordedAt))
            .build());
    return fact;
  }

  @Test
  void aLotDeclaredAnewUnderOtherRulesIsOwedACorrection() {
    Dossier lot =
        Dossiers.lot("l1")
            .with(
                Facts.declared("l1", Facts.HYBRID, Category.CERTIFIED, 1000).at("2024-08-01"),
                Facts.declared("l1", Facts.HYBRID, Category.CERTIFIED, 1000)
                    .at("2024-09-01")
                    .with(later -> later.setRulebookId("US")))
            .scheme()
            .dossier();

    assertThat(origin(lot)).isNotEmpty();
  }

  @Test
  void aHybridOfWhichTwoThingsAreSaidIsOwedACorrection() {
    Dossiers lot =
        Dossiers.lot("l1")
            .with(Facts.declared("l1", Facts.HYBRID, Category.CERTIFIED, 1000))
            .scheme(Facts.hybrid().id("h1"));
    lot.scheme(
        Facts.hybrid()
            .id("h2")
            .with(
                same -> {
                  List<Cross> crosses = new ArrayList<>(same.getCrosses());
                  Collections.reverse(crosses);
                  same.setCrosses(crosses);
                }));
    assertThat(origin(lot.dossier())).as("the same in another order").isEmpty();

    lot.scheme(Facts.hybrid().id("h3").with(other -> other.setTolerancePercentPoints(5)));

    assertOwed(
        lot.dossier(),
        new OriginFinding.SeveralDeclarations(
            Subject.hybrid(Facts.HYBRID),
            List.of(new Fact("h1"), new Fact("h2"), new Fact("h3")),
            List.of("tolerancePercentPoints")));
  }

  private static void assertOwed(Dossier dossier, OriginFinding finding) {
    assertThat(origin(dossier))
        .singleElement()
        .satisfies(owed -> assertThat(owed.findings()).contains(finding.coded()));
  }

  private static Dossiers raw() {
    return Dossiers.lot("l1").parentCrop("c1", Dossiers.f1());
  }

  private static List<Verdict> origin(Dossier dossier) {
    return standing(dossier).verdicts().stream()
        .filter(verdict -> verdict.gate() == Gate.ORIGIN)
        .filter(Verdict.Owed.class::isInstance)
        .toList();
  }

  private static Standing standing(Dossier dossier) {
    return JUDGE.judge(dossier).standing().orElseThrow();
  }
}
