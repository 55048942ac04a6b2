package org.kornspur.processors.gates;

import java.util.List;
import java.util.stream.Stream;

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
            new SampleDrawing())
        .<GateRule>map(WithSilence::new)
        .toList();
  }
}
