package org.kornspur.processors.gates;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.kornspur.contract.Category;
import org.kornspur.contract.CropRole;
import org.kornspur.ingest.statement.Coded;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.finding.RuleFinding;
import org.kornspur.processors.fixture.Dossiers;
import org.kornspur.processors.fixture.Draft;
import org.kornspur.processors.fixture.Facts;
import org.kornspur.processors.judging.Judge;
import org.kornspur.processors.judging.Standing;
import org.kornspur.processors.standards.Limit;
import org.kornspur.processors.standards.Quantity;
import org.kornspur.processors.standards.Rulebooks;
import org.kornspur.processors.verdict.Fitness;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.RuleNote;
import org.kornspur.processors.verdict.Verdict;

/** No crop or lot is fit because its rulebook says nothing of it. */
class MissingLimitsTest {
  private static final Judge JUDGE = Judge.by(Rulebooks.bundled());

  /**
   * Seed Ordinance (SaatV), section 6 (read): what holds for basic seed holds for pre-basic. The
   * Directive: from memory. Under US 201.54 (read) asks for 400 seeds whatever the class.
   */
  @ParameterizedTest
  @CsvSource({
    "EU, PRE_BASIC, A1",
    "DE, PRE_BASIC, A1",
    "OECD, PRE_BASIC, A1",
    "US, PRE_BASIC, A1",
    "US, BASIC, A1",
    "US, CERTIFIED, H1",
    "OECD, CERTIFIED, H1",
    "EU, BREEDER, A1",
    "HOUSE, BREEDER, A1",
    "US, BREEDER, A1"
  })
  void aLotOfWhichNothingWasTestedIsNotFit(String book, Category category, String seed) {
    Standing standing = standing(lot(book, category, seed));

    assertThat(standing.state()).isEqualTo(Fitness.EVIDENCE_OWED);
    assertThat(states(standing, Gate.SAMPLING)).containsExactly("owed");
    if (!book.equals("OECD")) {
      assertThat(states(standing, Gate.GERMINATION)).contains("owed").doesNotContain("met");
    }
  }

  /**
   * SaatV section 6, Annex 3 no. 1.1.3, and the technical annex on seed certification in England
   * and Wales, December 2016, cereals (both read): 85 % of pre-basic seed too.
   */
  @ParameterizedTest
  @ValueSource(strings = {"DE", "EU"})
  void preBasicSeedIsJudgedAsBasicSeedIs(String book) {
    Standing standing =
        standing(lot(book, Category.PRE_BASIC, "A1", Facts.germination("l1", 70, 70, 70, 70)));

    Verdict germination = only(standing, Gate.GERMINATION);
    assertThat(germination).isInstanceOf(Verdict.NotMet.class);
    assertThat(germination.limit().map(Limit::value)).contains(85.0);
    assertThat(germination.limit().map(Limit::verified)).contains(true);
    assertThat(notes(standing)).contains("rule.judged-as");
  }

  /** 7 CFR 201.20 and 201.54 (read): the label states it, of at least 400 seeds; no minimum. */
  @Test
  void underTheUnitedStatesBookATestIsAskedForAndNoMinimum() {
    Standing few = standing(lot("US", Category.CERTIFIED, "H1", Facts.germination("l1", 70, 70)));
    Standing enough =
        standing(lot("US", Category.CERTIFIED, "H1", Facts.germination("l1", 70, 70, 70, 70)));

    assertThat(only(few, Gate.GERMINATION)).isInstanceOf(Verdict.Owed.class);
    Verdict germination = only(enough, Gate.GERMINATION);
    assertThat(germination).isInstanceOf(Verdict.Met.class);
    assertThat(germination.limit().map(Limit::quantity)).contains(Quantity.GERMINATION_SEEDS);
    assertThat(nothingAsked(enough, Gate.GERMINATION)).hasSize(1);
  }

  @Test
  void whatNobodyAsksForIsNotCountedAsMet() {
    Standing standing = standing(lot("US", Category.CERTIFIED, "H1"));

    assertThat(nothingAsked(standing, Gate.ANALYTICAL_PURITY)).hasSize(1);
    assertThat(standing.verdicts())
        .extracting(Verdict::gate)
        .doesNotContain(Gate.ANALYTICAL_PURITY, Gate.MOISTURE, Gate.ERGOT);
  }

  /** SaatV section 6 with Annex 2 no. 1.3.1.3b (read): 1,000 m. */
  @ParameterizedTest
  @CsvSource({"EU, NOT_FIT", "DE, NOT_FIT", "HOUSE, NOT_FIT", "US, EVIDENCE_OWED"})
  void aPreBasicCropBesideRyeIsNotFit(String book, Fitness state) {
    Standing standing =
        standing(
            Dossiers.crop("c1")
                .with(crop(book, CropRole.STERILE_FEMALE, Category.PRE_BASIC))
                .scheme()
                .neighbour(50)
                .dossier());

    assertThat(standing.state()).isEqualTo(state);
    assertThat(states(standing, Gate.ISOLATION))
        .containsExactly(state == Fitness.NOT_FIT ? "not-met" : "owed");
    new Judged(standing.verdicts().stream().filter(v -> v.gate() == Gate.ISOLATION).toList())
        .row("pre-basic crop 50 m from rye, " + book, state.name(), standing.state().name());
  }

  /**
   * Certified seed of a hybrid is that of the mixture: SR 2016/244, schedule 2 paragraphs 7 to 9
   * (read), and the definitions of the Directive, from memory.
   */
  @ParameterizedTest
  @CsvSource({
    "F1_MIXTURE, BASIC",
    "F1_MIXTURE, PRE_BASIC",
    "STERILE_FEMALE, CERTIFIED",
    "MAINTAINER, CERTIFIED",
    "POLLINATOR, CERTIFIED",
    "FERTILE_LINE, CERTIFIED"
  })
  void aCropThatCannotBeIsOwedAndDropsNoGate(CropRole role, Category category) {
    for (String book : List.of("EU", "DE", "OECD", "US", "HOUSE")) {
      Standing standing =
          standing(
              Dossiers.crop("c1")
                  .with(
                      crop(book, role, category),
                      Facts.inspection("c1").female().offTypesInArea(0, 900))
                  .scheme()
                  .neighbour(50)
                  .dossier());

      assertThat(standing.state()).as(book).isNotEqualTo(Fitness.FIT);
      assertThat(states(standing, Gate.COMPONENTS)).as(book).contains("owed");
      assertThat(states(standing, Gate.ISOLATION)).as(book).isNotEmpty().doesNotContain("met");
    }
  }

  @ParameterizedTest
  @CsvSource({"A1, CERTIFIED", "AB1, CERTIFIED", "H1, PRE_BASIC"})
  void aLotThatCannotBeIsOwed(String seed, Category category) {
    Standing standing = standing(lot("EU", category, seed));

    assertThat(standing.state()).isEqualTo(Fitness.EVIDENCE_OWED);
    assertThat(states(standing, Gate.COMPONENTS)).contains("owed");
  }

  /** Open-pollinated rye of an admixture is certified seed of its own; trade texts (read). */
  @Test
  void openPollinatedRyeOfAnAdmixtureMayBeCertified() {
    Draft<?> admixture = Facts.admixture("x1").hybrid("f1", 9000).openPollinated("l1", 900);
    Standing mixedIn = standing(lot("EU", Category.CERTIFIED, "OPR", admixture));
    Standing component = standing(lot("EU", Category.CERTIFIED, "A1", admixture));

    assertThat(states(mixedIn, Gate.COMPONENTS)).doesNotContain("owed");
    assertThat(states(component, Gate.COMPONENTS)).contains("owed");
  }

  /** Common practice, no source; a purity that somebody states is no line of the book. */
  @ParameterizedTest
  @CsvSource(
      value = {"none", "50", "99.9"},
      nullValues = "none")
  void whatWasCountedInPostControlWantsALimit(Double statedPercent) {
    Standing standing =
        standing(
            lot(
                "EU",
                Category.CERTIFIED,
                "OPR",
                Facts.admixture("x1").hybrid("f1", 9000).openPollinated("l1", 900),
                Facts.postControl("l1", 1000, 0)
                    .with(result -> result.setStatedPurityPercent(statedPercent))));

    assertThat(states(standing, Gate.POST_CONTROL)).contains("owed");
  }

  private static Dossier lot(String book, Category category, String seed, Draft<?>... facts) {
    return Dossiers.lot("l1")
        .with(Facts.declared("l1", seed, category, 1000).with(lot -> lot.setRulebookId(book)))
        .with(facts)
        .scheme()
        .dossier();
  }

  private static Draft<?> crop(String book, CropRole role, Category category) {
    return Facts.crop("c1", role).with(c -> c.setRulebookId(book).setCategory(category));
  }

  private static Standing standing(Dossier dossier) {
    return JUDGE.judge(dossier).standing().orElseThrow();
  }

  private static Verdict only(Standing standing, Gate gate) {
    List<Verdict> found =
        standing.verdicts().stream().filter(verdict -> verdict.gate() == gate).toList();
    assertThat(found).hasSize(1);
    return found.get(0);
  }

  private static List<String> states(Standing standing, Gate gate) {
    return standing.verdicts().stream()
        .filter(verdict -> verdict.gate() == gate)
        .map(
            verdict ->
                verdict instanceof Verdict.Met
                    ? "met"
                    : verdict instanceof Verdict.NotMet ? "not-met" : "owed")
        .toList();
  }

  private static List<Coded> nothingAsked(Standing standing, Gate gate) {
    return standing.ruleNotes().stream()
        .filter(note -> note.gate().equals(Optional.of(gate)))
        .map(RuleNote::finding)
        .filter(finding -> finding.code().equals(Coded.codeOf(RuleFinding.NothingAsked.class)))
        .toList();
  }

  private static List<String> notes(Standing standing) {
    return standing.ruleNotes().stream().map(note -> note.finding().code()).toList();
  }
}
