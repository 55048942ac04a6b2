package org.kornspur.processors.gates;

import java.util.List;
import java.util.stream.Stream;
import org.kornspur.ingest.contract.FactType;

/** Every gate. */
public final class Gates {

  private Gates() {}

  /**
   * Every gate, in the order of the crop's and the lot's life, with what it owes for the book's
   * silence.
   */
  public static List<GateRule> all() {
    return Stream.of(
            new Isolation(),
            new OffTypes(),
            new SheddingFemales(),
            new FemaleSterility(),
            new OtherPlants(),
            new FieldInspections(),
            new PreviousCropping(),
            new CropArea(),
            new Components(),
            new Origin(),
            proving(new BlendShare(), FactType.BLEND_COMPOSITION),
            new MassBalance(),
            proving(new PostControl(), FactType.POST_CONTROL_RESULT),
            new PostControlOfBasicSeed(),
            proving(new Germination(), FactType.GERMINATION_TEST),
            proving(new AnalyticalPurity(), FactType.PURITY_TEST),
            proving(new OtherSeeds(), FactType.OTHER_SEED_DETERMINATION),
            proving(new Ergot(), FactType.OTHER_SEED_DETERMINATION),
            proving(new Moisture(), FactType.MOISTURE_TEST),
            new LotSize(),
            new SampleDrawing())
        .<GateRule>map(MissingLimitGate::new)
        .toList();
  }

  private static GateRule proving(GateRule gate, FactType by) {
    return new ProvingResults(gate, by);
  }
}
