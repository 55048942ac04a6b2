package org.kornspur.processors.advice;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.function.Function;
import org.kornspur.contract.CropRole;
import org.kornspur.contract.FieldCropDeclared;
import org.kornspur.contract.Harvest;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.statement.Value.Fact;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.ground.FloweringWindow;
import org.kornspur.processors.ground.Outline;
import org.kornspur.processors.ground.Wind;
import org.kornspur.processors.statistics.ExactBinomial;
import org.kornspur.processors.statistics.ExpectedHybridity;
import org.kornspur.processors.statistics.HybridityParameters;
import org.kornspur.processors.statistics.Interval;
import org.kornspur.processors.statistics.TriangularRange;

/**
 * Expected hybridity of the harvest of an F1 crop, from what its dossier and those of the lots sown
 * and of the neighbours hold. Advice, not a gate: no crop or lot is fit or not fit by it.
 *
 * @param crop the crop
 * @param hybridId hybrid that is grown
 * @param forecast the forecast; simulated with a seed made from the crop's id, so that the same
 *     facts give the same answer
 * @param inputs every number that it rests on, assumptions too
 * @param foreignPollen sources near the crop, nearest first, those that do not count too
 * @param missing what would have to be brought for a better forecast
 * @param simplifications what the forecast leaves out
 * @param sentence the forecast in a sentence
 */
public record HybridityForecast(
    Subject crop,
    String hybridId,
    ExpectedHybridity forecast,
    List<InputValue> inputs,
    List<ForeignPollen> foreignPollen,
    List<Missing> missing,
    List<ForecastStatement> simplifications,
    ForecastStatement sentence) {
  private static final int RUNS = 10_000;
  private static final double CONFIDENCE = 0.95;
  private static final int DEFAULT_SHEDDING = 2;
  private static final int DEFAULT_EXAMINED = 100;

  private static final InputValue POLLINATOR_OVERLAP =
      InputValue.assumed(
          new AdviceInput.PollinatorOverlap(), new TriangularRange(0.7, 0.9, 1), "share");

  /**
   * The advice for a crop.
   *
   * @param crop dossier of the crop
   * @param dossiers finds the dossiers of lots sown and of neighbours; an empty one where nothing
   *     is known
   * @param wind a prevailing wind that whoever asks assumes; it bears on foreign pollen alone
   * @return empty where the crop is not declared, or is not a mixture sown for F1 seed
   */
  public static Optional<HybridityForecast> of(
      Dossier crop, Function<Subject, Dossier> dossiers, Optional<Wind> wind) {
    return crop.crop()
        .filter(declaration -> declaration.getRole() == CropRole.F1_MIXTURE)
        .map(declaration -> of(crop, declaration, dossiers, wind));
  }

  private static HybridityForecast of(
      Dossier crop,
      FieldCropDeclared declaration,
      Function<Subject, Dossier> dossiers,
      Optional<Wind> wind) {
    Set<Missing> missing = new LinkedHashSet<>();
    List<InputValue> inputs = new ArrayList<>();
    Optional<FemaleCount> females = FemaleCount.of(crop);
    inputs.add(
        females.map(HybridityForecast::counted).orElseGet(HybridityForecast::sterilityOfTheLaw));
    females.ifPresentOrElse(
        count -> count.leftOut().forEach(id -> missing.add(new Missing.Correction(new Fact(id)))),
        () -> missing.add(new Missing.CountInFlower()));
    SownMixture mixture = new SownMixture(crop, declaration, dossiers);
    inputs.add(mixture.input());
    missing.addAll(mixture.missing());
    InputValue overlap =
        NickingAdvice.of(crop)
            .flatMap(NickingAdvice::overlap)
            .map(HybridityForecast::seen)
            .orElse(POLLINATOR_OVERLAP);
    inputs.add(overlap);
    if (overlap.equals(POLLINATOR_OVERLAP)) {
      missing.add(new Missing.PollinatorFlowering());
    }
    boolean pollinatorHarvested = pollinatorHarvested(crop);
    if (declaration.getFloweringFrom() == null || declaration.getFloweringTo() == null) {
      missing.add(new Missing.CropFlowering());
    }
    Optional<Outline> outline = ForeignPollen.readable(declaration.getOutline());
    FloweringWindow flowering = crop.flowering();
    List<ForeignPollen> foreign =
        crop.neighbours().stream()
            .map(neighbour -> ForeignPollen.of(flowering, outline, neighbour, dossiers, wind))
            .toList();
    foreign.stream()
        .filter(source -> !source.areaKnown())
        .forEach(source -> missing.add(new Missing.Outline(source.source())));
    HybridityParameters parameters = HybridityParameters.published();
    inputs.addAll(literature(parameters, pollinatorHarvested));
    wind.ifPresent(blows -> inputs.addAll(assumed(blows)));
    ExpectedHybridity forecast =
        ExpectedHybridity.forecast(
            new ExpectedHybridity.Crop(
                females.map(FemaleCount::shedding).orElse(DEFAULT_SHEDDING),
                females.map(FemaleCount::examined).orElse(DEFAULT_EXAMINED),
                mixture.input().value(),
                overlap.value(),
                pollinatorHarvested,
                foreign.stream()
                    .filter(ForeignPollen::counts)
                    .map(ForeignPollen::asSource)
                    .toList()),
            parameters,
            RUNS,
            seed(crop.subject()),
            CONFIDENCE);
    return new HybridityForecast(
        crop.subject(),
        declaration.getHybridId(),
        forecast,
        List.copyOf(inputs),
        foreign,
        List.copyOf(missing),
        simplifications(foreign, wind),
        sentence(crop.subject(), forecast));
  }

  private static InputValue counted(FemaleCount count) {
    Interval interval = ExactBinomial.interval(count.shedding(), count.examined(), CONFIDENCE);
    return InputValue.counted(
        new AdviceInput.SheddingFemales(),
        new TriangularRange(
            interval.lower(), (double) count.shedding() / count.examined(), interval.upper()),
        "share",
        new InputSource.Counted(count.shedding(), count.examined()),
        count.factIds());
  }

  private static InputValue seen(NickingAdvice.Overlap overlap) {
    return InputValue.counted(
        new AdviceInput.PollinatorOverlap(),
        overlap.share(),
        "share",
        new InputSource.SeenFlowering(overlap.days(), overlap.femaleDays()),
        overlap.factIds());
  }

  private static InputValue sterilityOfTheLaw() {
    Interval interval = ExactBinomial.interval(DEFAULT_SHEDDING, DEFAULT_EXAMINED, CONFIDENCE);
    return new InputValue(
        new AdviceInput.SheddingFemales(),
        new TriangularRange(
            interval.lower(), (double) DEFAULT_SHEDDING / DEFAULT_EXAMINED, interval.upper()),
        "share",
        InputValue.Origin.STATED,
        new InputSource.LawfulSterility(DEFAULT_SHEDDING, DEFAULT_EXAMINED),
        true,
        List.of());
  }

  /** Without a word to the contrary the sown mixture is harvested as it stands. */
  private static boolean pollinatorHarvested(Dossier crop) {
    List<Harvest> harvests = crop.facts(Harvest.class);
    return harvests.isEmpty()
        || !harvests.stream()
            .allMatch(harvest -> Boolean.TRUE.equals(harvest.getPollenParentRemoved()));
  }

  private static List<InputValue> literature(
      HybridityParameters parameters, boolean pollinatorHarvested) {
    List<InputValue> inputs = new ArrayList<>();
    inputs.add(InputValue.of(new AdviceInput.ShedderPollen(), "share", parameters.shedderPollen()));
    if (pollinatorHarvested) {
      inputs.add(
          InputValue.of(new AdviceInput.PollinatorYield(), "share", parameters.pollinatorYield()));
    }
    inputs.add(InputValue.of(new AdviceInput.KernelTail(), "1", parameters.kernelTailExponent()));
    inputs.add(InputValue.of(new AdviceInput.KernelDistance(), "m", parameters.kernelDistanceM()));
    inputs.add(
        InputValue.of(new AdviceInput.KernelShare(), "share", parameters.kernelShareWithin()));
    return inputs;
  }

  private static List<InputValue> assumed(Wind wind) {
    return List.of(
        InputValue.asked(new AdviceInput.WindDirection(), wind.fromDeg(), "deg"),
        InputValue.asked(new AdviceInput.WindRatio(), wind.ratio(), "1"));
  }

  private static List<ForecastStatement> simplifications(
      List<ForeignPollen> foreign, Optional<Wind> wind) {
    List<ForecastStatement> said = new ArrayList<>();
    said.add(new ForecastStatement.PlantsAlike());
    said.add(new ForecastStatement.SheddersStay());
    if (foreign.stream().anyMatch(source -> source.counts() && !source.byOutline())) {
      said.add(new ForecastStatement.SquareSources());
    }
    said.add(wind.isPresent() ? new ForecastStatement.OneWind() : new ForecastStatement.NoWind());
    said.add(new ForecastStatement.NearSourcesOnly());
    return List.copyOf(said);
  }

  private static long seed(Subject crop) {
    return UUID.nameUUIDFromBytes(crop.toString().getBytes(StandardCharsets.UTF_8))
        .getMostSignificantBits();
  }

  private static ForecastStatement sentence(Subject crop, ExpectedHybridity forecast) {
    return new ForecastStatement.Expected(
        crop,
        SignificantFigures.percent(forecast.mean()),
        SignificantFigures.percent(forecast.interval().lower()),
        SignificantFigures.percent(forecast.interval().upper()),
        SignificantFigures.percent(forecast.selfedOrSibbed()),
        SignificantFigures.percent(forecast.outcrossed()),
        SignificantFigures.percent(forecast.pollinatorSeed()));
  }
}
