package org.kornspur.processors.finding;

import org.kornspur.ingest.statement.Value.Amount;

/** Whether so much was counted, and at such a time, that the count tells. */
public sealed interface SampleSizeFinding extends Finding {
  record TooSmall(Amount counted, Amount least) implements SampleSizeFinding {}

  /** Growth stages on the BBCH scale. */
  record TooEarly(int stage, int from) implements SampleSizeFinding {}

  /** How often a crop or lot with this share would pass with so many plants. */
  record ConsumersRisk(Amount share, Amount risk) implements SampleSizeFinding {}

  /** How often a crop with so many in the area counted would pass. */
  record ConsumersRiskByArea(Amount plants, Amount area, Amount risk)
      implements SampleSizeFinding {}
}
