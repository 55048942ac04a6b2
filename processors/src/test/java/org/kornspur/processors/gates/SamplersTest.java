package org.kornspur.processors.gates;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.kornspur.contract.Category;
import org.kornspur.contract.TestKind;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.statement.Value.Fact;
import org.kornspur.processors.dossier.Report;
import org.kornspur.processors.finding.Evidence;
import org.kornspur.processors.finding.SamplingFinding;
import org.kornspur.processors.fixture.Dossiers;
import org.kornspur.processors.fixture.Draft;
import org.kornspur.processors.fixture.Facts;
import org.kornspur.processors.judging.Judge;
import org.kornspur.processors.standards.Rulebooks;
import org.kornspur.processors.verdict.Fitness;

/**
 * A sample proves something where its sampler is declared for sampling on its day. Seed Ordinance
 * (SaatV), section 11(1), read: whom the authority appointed draws the sample; elsewhere common
 * practice, no source.
 */
class SamplersTest {
  private static final LocalDate DRAWN = LocalDate.of(2024, 9, 10);

  @ParameterizedTest(name = "declared for {0} from {1} days after the sampling on: {2}")
  @CsvSource({
    "SAMPLING, 0, MET",
    "SAMPLING, 1, OWED",
    "GERMINATION, 0, OWED",
  })
  void isDeclaredForSamplingOnItsDay(TestKind kind, int days, String expected) {
    Judged judged =
        sampling(
            Dossiers.lotWithoutLaboratory("l1")
                .laboratory(
                    "SAMPLER-7",
                    new Report.Accredited(kind, DRAWN.plusDays(days), DRAWN.plusYears(1))),
            drawnBy("SAMPLER-7"));

    assertThat(judged.worst()).isEqualTo(expected);
  }

  @Test
  void whoeverNobodyDeclaredIsToBeDeclaredOrAnotherSampleDrawn() {
    Judged judged = sampling(Dossiers.lot("l1"), drawnBy("SAMPLER-7"));

    assertThat(judged.worst()).isEqualTo("OWED");
    judged
        .asksFor(new Evidence.DeclaredSampler())
        .found(
            new SamplingFinding.SamplerNotDeclared(
                new Fact("drawn"), Subject.enterprise("SAMPLER-7"), DRAWN));
  }

  /** The contract takes any text there. */
  @ParameterizedTest
  @ValueSource(strings = {"our own man", "-", "", "  ", "n/a?", "1;2", "LAB1 "})
  void anAccreditationThatNobodyCanReadIsNobodys(String accreditation) {
    Judged judged = sampling(Dossiers.lot("l1"), drawnBy(accreditation));

    if (accreditation.strip().equals("LAB1")) {
      assertThat(judged.worst()).as("a blank too much").isEqualTo("MET");
      return;
    }
    assertThat(judged.worst()).isEqualTo("OWED");
    judged
        .asksFor(new Evidence.DeclaredSampler())
        .found(new SamplingFinding.NoSampler(new Fact("drawn")));
  }

  @Test
  void aSampleOfADeclaredSamplerBesideItIsEnoughIfItWasTested() {
    Draft<?> other =
        Facts.sampling("l1", 40, 1000, 40).with(drawn -> drawn.setSampleId("other")).id("good");

    Judged tested =
        sampling(
            Dossiers.lot("l1")
                .with(
                    other,
                    Facts.germination("l1", 95, 94, 96, 95)
                        .with(test -> test.setSampleId("other"))),
            drawnBy("SAMPLER-7"));
    assertThat(tested.worst()).isEqualTo("MET");

    Judged untested =
        sampling(
            Dossiers.lot("l1").with(other, Facts.germination("l1", 95, 94, 96, 95)),
            drawnBy("SAMPLER-7"));
    assertThat(untested.worst()).isEqualTo("OWED");
    untested.asksFor(new Evidence.TestsOfDrawnSample(List.of(FactType.GERMINATION_TEST)));
  }

  @ParameterizedTest(name = "drawn by {0}, moisture {1} %: {2}")
  @CsvSource({
    "LAB1, 13, FIT",
    "SAMPLER-7, 13, EVIDENCE_OWED",
    // what is bad is bad whoever drew it
    "SAMPLER-7, 18, NOT_FIT"
  })
  void aLotIsFitByNoSampleOfAnybody(String sampler, double moisture, Fitness expected) {
    Fitness found =
        Judge.by(Rulebooks.bundled())
            .judge(
                Dossiers.lot("l1")
                    .with(
                        Facts.declared("l1", Facts.HYBRID, Category.CERTIFIED, 1000)
                            .with(lot -> lot.setRulebookId("DE")),
                        drawnBy(sampler),
                        Facts.germination("l1", 95, 94, 96, 95),
                        Facts.purity("l1", 119.4, 0.5, 0.1),
                        Facts.moisture("l1", moisture),
                        Facts.otherSeeds("l1"))
                    .dossier())
            .standing()
            .orElseThrow()
            .state();

    assertThat(found).isEqualTo(expected);
  }

  private static Draft<?> drawnBy(String accreditation) {
    return Facts.sampling("l1", 40, 1000, 40)
        .with(drawn -> drawn.setSamplerAccreditation(accreditation))
        .id("drawn");
  }

  private static Judged sampling(Dossiers lot, Draft<?> drawn) {
    return Judged.by(
        "DE",
        new SamplingGate(),
        lot.with(Facts.declared("l1", Facts.HYBRID, Category.CERTIFIED, 1000), drawn).dossier());
  }
}
