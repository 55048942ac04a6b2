package org.kornspur.processors.finding;

import java.util.List;
import java.util.Optional;
import org.kornspur.contract.Category;
import org.kornspur.contract.TestKind;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.statement.Statement;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.ingest.statement.Value.Fact;
import org.kornspur.processors.standards.Quantity;

/** What is to be brought. */
public sealed interface Evidence extends Finding {
  record PurityTest() implements Evidence {}

  record PurityTestOf(Amount least) implements Evidence {}

  record GerminationTest() implements Evidence {}

  record GerminationTestThatGrows() implements Evidence {}

  record GerminationTestOf(Subject lot) implements Evidence {}

  record GerminationTestOfSeeds(Amount seeds) implements Evidence {}

  record RetestOfFourHundred() implements Evidence {}

  record TestOfFourHundred() implements Evidence {}

  record FurtherGerminationTest() implements Evidence {}

  record NewGerminationTest() implements Evidence {}

  /** A new sample and its germination test. */
  record NewSampleForGermination() implements Evidence {}

  /** The authority's answer to the application for a label below the minimum. */
  record AcceptedLabel() implements Evidence {}

  record MoistureTest() implements Evidence {}

  record KernelWeightOf(Subject lot) implements Evidence {}

  record KernelWeightAndGermination() implements Evidence {}

  /** Tests taken back under one name, and recorded under the name that the seed has. */
  record TestsOfRightLot() implements Evidence {}

  /** What a person decided of seed stays with the name under which that was. */
  record OldNameAgain(Subject lot) implements Evidence {}

  record LargerKernelSample() implements Evidence {}

  /** A sample of kernels told apart in a mixture, drawn after it was graded. */
  record CompositionSample() implements Evidence {}

  /**
   * Another sample, or another figure of the breeder: nothing takes the one to the other. Where the
   * ratio is one of mass, kernels are weighed as they are told apart.
   */
  record CompositionOnStatedBasis() implements Evidence {}

  /** Of each part that is used, for the tests that a part of the same seed failed. */
  record SampleOfEachPart() implements Evidence {}

  /** A plot or marker test of the lot itself, beside that of the part that failed. */
  record PostControlOfEachPart() implements Evidence {}

  /**
   * Of a whole of which a part failed: what lies in store is divided off as a lot of its own, which
   * a plot or marker test then is of; what is distributed no test is of any more.
   */
  record PostControlOfRest(Optional<Amount> inStore, Optional<Amount> distributed)
      implements Evidence {}

  /** Kernels of a mixture told apart on the breeder's basis; of viable ones by growing them. */
  record SampleOfMixture() implements Evidence {}

  /** How often the marker method errs, from its laboratory. */
  record ErrorRatesOfMethod() implements Evidence {}

  /** A plot or grow-out, or a marker method that errs less. */
  record CountByOtherMethod() implements Evidence {}

  record Sampling() implements Evidence {}

  /** The declaration of the sampler, or another sample. */
  record DeclaredSampler() implements Evidence {}

  /** Samples of each portion that was treated: what was sampled before stands for none alone. */
  record SampleOfTreated(Amount treated) implements Evidence {}

  record SampleOfPrimarySamples(int primarySamples) implements Evidence {}

  record SampleOfWholeLot(Amount lot) implements Evidence {}

  /** The declaration of the laboratory, or another test. */
  record DeclaredLaboratory(TestKind test) implements Evidence {}

  record TestsOfDrawnSample(List<FactType> kinds) implements Evidence {}

  /** All that was put together under one rulebook. */
  record OneRulebook() implements Evidence {}

  record HeavierSample() implements Evidence {}

  record FirstCount(Quantity what) implements Evidence {}

  record FirstSample(Optional<Statement> least) implements Evidence {}

  record SecondSample(Optional<Statement> least) implements Evidence {}

  record Correction(List<Fact> facts) implements Evidence {}

  record MasterData(Subject hybrid) implements Evidence {}

  record SowingOfFemale(String component) implements Evidence {}

  record SowingOfPollenParent(String component) implements Evidence {}

  record SowingOf(String component) implements Evidence {}

  record SowingOfMixture(Subject hybrid) implements Evidence {}

  record OriginOf(Subject subject) implements Evidence {}

  record CropDeclaration() implements Evidence {}

  record LotOrigin() implements Evidence {}

  record KnownRulebook() implements Evidence {}

  /** A line for it, or a rulebook or category that has one. */
  record RuleFor(List<Quantity> what, Category category) implements Evidence {}

  record SterilityCheck() implements Evidence {}

  record FurtherVisits(int visits) implements Evidence {}

  record SheddingCount() implements Evidence {}

  record FloweringDays() implements Evidence {}

  /** A count of at least so much, from a growth stage on. */
  record LargerCount(Amount least) implements Evidence {}

  record CountFromStage(Amount least, int stage) implements Evidence {}

  record VisitsInFlower(int visits) implements Evidence {}

  record VisitsToPollenParent(int visits) implements Evidence {}

  record OffTypesOfFemale() implements Evidence {}

  record YearsWithoutRye() implements Evidence {}

  record ExceptionForArea() implements Evidence {}

  record PollenParentAtHarvest() implements Evidence {}

  record OffTypesByArea() implements Evidence {}

  record OffTypesByPlants() implements Evidence {}

  record OffTypesByAreaOrPlants() implements Evidence {}

  record PlantCount(Quantity what) implements Evidence {}

  /** Of two crops on one ground the right outline, or the withdrawal of the one not grown. */
  record OneCropOfGround(Subject other) implements Evidence {}

  record SourceLookedAt(Subject source) implements Evidence {}

  record InspectionOfCrop(Subject crop) implements Evidence {}

  record PostControlOfBasicSeed() implements Evidence {}

  record SheddingInPostControl() implements Evidence {}

  record ConfirmationByQuality(List<Fact> first, Optional<Integer> further) implements Evidence {}

  /** A correction that gives other values, or the same ones and the reason for them. */
  record CorrectionOrReason(Fact fact) implements Evidence {}

  /** The withdrawal of a correction of another kind, and a fact of its own kind. */
  record CorrectionOfItsKind(Fact fact) implements Evidence {}

  /** The withdrawal of a fact that is not of a subject, or its correction by one that is. */
  record CorrectionHere(Fact fact, Subject subject) implements Evidence {}

  record WithdrawalOfAllButOne() implements Evidence {}

  record ReportOfFault() implements Evidence {}

  record ReadableDossier() implements Evidence {}

  /** What an earlier release recorded in English. */
  record Recorded(String words) implements Evidence {}
}
