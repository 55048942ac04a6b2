package org.kornspur.processors.release;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.params.provider.Arguments.arguments;

import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.statement.Coded;
import org.kornspur.ingest.statement.Statement;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.ingest.statement.Value.Fact;
import org.kornspur.processors.finding.BasisFinding;
import org.kornspur.processors.finding.Bound;
import org.kornspur.processors.finding.ContractFinding;
import org.kornspur.processors.finding.Evidence;
import org.kornspur.processors.finding.Finding;
import org.kornspur.processors.standards.Quantity;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Verdict;

/** The words as the last release that sealed them had them. */
class VersionOneWordsTest {

  static Stream<Arguments> words() {
    Optional<Statement> least = Optional.of(new Bound.AtLeast(new Amount(500, "g")));
    return Stream.of(
        arguments(
            new Evidence.GerminationTestOf(Subject.lot("L1")), "a germination test of lot:L1"),
        arguments(
            new Evidence.GerminationTestOfSeeds(new Amount(400, "seeds")),
            "a test of at least 400 seeds"),
        arguments(
            new Evidence.KernelWeightOf(Subject.lot("L1")), "the thousand-kernel weight of lot:L1"),
        arguments(
            new Evidence.SampleOfPrimarySamples(1), "a new sample of at least 1 primary sample"),
        arguments(
            new Evidence.SampleOfPrimarySamples(30), "a new sample of at least 30 primary samples"),
        arguments(
            new Evidence.FirstCount(Quantity.WILD_OAT_SEEDS),
            "a first sample in which the aspect were counted"),
        arguments(new Evidence.FirstSample(least), "a first sample of at least 500 g"),
        arguments(new Evidence.SecondSample(Optional.empty()), "a second sample of the same mass"),
        arguments(new Evidence.Correction(List.of(new Fact("f1"))), "a correction of fact f1"),
        arguments(new Evidence.MasterData(Subject.hybrid("H1")), "the master data of hybrid H1"),
        arguments(new Evidence.SowingOfFemale("A1"), "the sowing of the female, seed of A1"),
        arguments(
            new Evidence.SowingOfPollenParent("B1"), "the sowing of the pollen parent, seed of B1"),
        arguments(new Evidence.SowingOf("C1"), "the sowing of seed of C1"),
        arguments(
            new Evidence.SowingOfMixture(Subject.hybrid("H1")),
            "the sowing of the technical mixture of H1"),
        arguments(new Evidence.OriginOf(Subject.crop("C1")), "the origin of crop:C1"),
        arguments(new Evidence.FurtherVisits(1), "the report of 1 further visit"),
        arguments(new Evidence.FurtherVisits(2), "the report of 2 further visits"),
        arguments(
            new Evidence.PlantCount(Quantity.SMUT_PLANTS),
            "a field inspection with the aspect counted over an area"),
        arguments(
            new Evidence.SourceLookedAt(Subject.source("S1")),
            "what an inspector or quality found there, recorded as pollen source S1"),
        arguments(
            new Evidence.InspectionOfCrop(Subject.crop("C1")), "a field inspection of that crop"),
        arguments(
            new Evidence.ConfirmationByQuality(
                List.of(new Fact("f1"), new Fact("f2")), Optional.empty()),
            "the word of quality on f1, f2"),
        arguments(
            new Evidence.ConfirmationByQuality(List.of(new Fact("f1")), Optional.of(3)),
            "the word of quality on f1, and 3 more"),
        arguments(new Evidence.Recorded("as it was"), "as it was"));
  }

  @ParameterizedTest
  @MethodSource("words")
  void evidenceIsWrittenAsItWas(Evidence evidence, String words) {
    assertThat(VersionOneWords.owed(owed(new BasisFinding.Nothing(), evidence.coded())))
        .isEqualTo(words);
  }

  static Stream<Class<?>> kinds() {
    return Stream.of(Evidence.class.getPermittedSubclasses());
  }

  @ParameterizedTest
  @MethodSource("kinds")
  void everyKindHasWords(Class<?> kind) {
    String code = Coded.codeOf(kind.asSubclass(Statement.class));

    assertThat(VersionOneWords.owed(owed(new BasisFinding.Nothing(), new Coded(code, List.of()))))
        .isNotBlank()
        .doesNotContain("evidence.");
  }

  @ParameterizedTest
  @MethodSource("corrections")
  void whichFactToCorrectDependsOnWhatWasFound(Finding finding, String words) {
    Evidence correction = new Evidence.Correction(List.of(new Fact("f1"), new Fact("f2")));

    assertThat(VersionOneWords.owed(owed(finding, correction.coded()))).isEqualTo(words);
  }

  static Stream<Arguments> corrections() {
    return Stream.of(
        arguments(
            new BasisFinding.NotJudged("StackOverflowError", Optional.empty()),
            "a correction of one of the facts f1, f2"),
        arguments(new ContractFinding.BeyondLimits(List.of()), "a correction of f1, f2"));
  }

  private static Verdict.Owed owed(Finding finding, Coded evidence) {
    return new Verdict.Owed(
        Gate.OTHER_SEEDS,
        "the aspect",
        Optional.empty(),
        List.of(evidence),
        Optional.empty(),
        List.of("f1", "f2"),
        List.of(finding.coded()),
        List.of());
  }
}
