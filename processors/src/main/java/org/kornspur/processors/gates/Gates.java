package org.kornspur.processors.gates;

import java.util.List;

/** Every gate. */
public final class Gates {

  private Gates() {}

  /** Every gate, in the order of the crop's and the lot's life. */
  public static List<GateRule> all() {
    return List.of(
        new Isolation(),
        new OffTypes(),
        new SheddingFemales(),
        new FemaleSterility(),
        new OtherPlants(),
        new FieldInspections(),
        new Components(),
        new Origin(),
        new BlendShare(),
        new MassBalance(),
        new PostControl(),
        new PostControlOfBasicSeed(),
        new Germination(),
        new AnalyticalPurity(),
        new OtherSeeds(),
        new Ergot(),
        new Moisture(),
        new LotSize(),
        new SampleDrawing());
  }
}
