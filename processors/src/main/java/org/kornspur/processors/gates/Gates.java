package org.kornspur.processors.gates;

import java.util.List;
import java.util.stream.Stream;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.standards.Rulebook;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Verdict;

/** Every gate. */
public final class Gates {

  private Gates() {}

  /**
   * Every gate, in the order of the crop's and the lot's life, with what it owes for the book's
   * silence.
   */
  public static List<GateRule> all() {
    return List.of(
        gate(Gate.ISOLATION, new IsolationGate()),
        gate(Gate.OFF_TYPES, new OffTypesGate()),
        gate(Gate.SHEDDING_FEMALES, new SheddingFemalesGate()),
        gate(Gate.FEMALE_STERILITY, new FemaleSterilityGate()),
        gate(Gate.OTHER_PLANTS, new OtherPlantsGate()),
        gate(Gate.FIELD_INSPECTIONS, new FieldInspectionsGate()),
        gate(Gate.PREVIOUS_CROPPING, new PreviousCroppingGate()),
        gate(Gate.CROP_AREA, new CropAreaGate()),
        gate(Gate.COMPONENTS, new ComponentsGate()),
        gate(Gate.ORIGIN, new OriginGate()),
        gate(
            Gate.BLEND_SHARE,
            new OwedForFailedPart(new BlendShareGate(), Gate.BLEND_SHARE),
            FactType.BLEND_COMPOSITION),
        gate(Gate.MASS_BALANCE, new MassBalanceGate()),
        gate(
            Gate.POST_CONTROL,
            new OwedForFailedPart(new PostControlGate(), Gate.POST_CONTROL),
            FactType.POST_CONTROL_RESULT),
        gate(Gate.POST_CONTROL_OF_BASIC_SEED, new PostControlOfBasicSeedGate()),
        seedTest(Gate.GERMINATION, new GerminationGate(), FactType.GERMINATION_TEST),
        seedTest(Gate.ANALYTICAL_PURITY, new AnalyticalPurityGate(), FactType.PURITY_TEST),
        seedTest(Gate.OTHER_SEEDS, new OtherSeedsGate(), FactType.OTHER_SEED_DETERMINATION),
        seedTest(Gate.ERGOT, new ErgotGate(), FactType.OTHER_SEED_DETERMINATION),
        seedTest(Gate.MOISTURE, new MoistureGate(), FactType.MOISTURE_TEST),
        gate(Gate.LOT_SIZE, new LotSizeGate()),
        gate(Gate.SAMPLING, new SamplingGate()));
  }

  /** A rule on seed itself, by tests of laboratories. */
  private static GateRule seedTest(Gate gate, GateRule rule, FactType results) {
    return gate(gate, new FailedParts(new UnusedLotRule(new ProvingResults(rule, results))));
  }

  /** A rule that rests on results of laboratories. */
  private static GateRule gate(Gate gate, GateRule rule, FactType results) {
    return gate(gate, new ProvingResults(rule, results));
  }

  private static GateRule gate(Gate gate, GateRule rule) {
    return new NamedGate(gate, rule);
  }

  /** A rule under its name, which owes evidence where the rulebook has no line for what it asks. */
  private record NamedGate(Gate gate, GateRule rule) implements GateRule {
    @Override
    public List<Verdict> judge(Dossier dossier, Rulebook rulebook) {
      return Stream.concat(
              rule.judge(dossier, rulebook).stream(),
              MissingLimits.owed(dossier, rulebook, gate).stream())
          .toList();
    }
  }
}
