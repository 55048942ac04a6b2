package org.kornspur.processors.finding;

import java.util.Optional;
import org.kornspur.ingest.statement.Value.Amount;

/** Female plants that shed pollen at field inspection. */
public sealed interface SheddingFinding extends Finding {
  record Counted(Optional<Integer> visit, int shedding, int receptive, Amount percent)
      implements SheddingFinding {}

  /** Of all plants of the component that were counted, those not in flower too. */
  record OfAllPlants(Amount percent, int plants) implements SheddingFinding {}

  /** Each visit for the days until the next; plants that shed before they were removed count. */
  record OverTheDays(Amount percent, int days) implements SheddingFinding {}

  /** So many that the crop is not true to type, though the text gives no share. */
  record UntrueToType() implements SheddingFinding {}

  record NotInFlowerYet() implements SheddingFinding {}

  record DaysUnknown() implements SheddingFinding {}

  /** Shedding plants of which nobody says among how many in flower. */
  record WithoutPlantsInFlower(int shedding) implements SheddingFinding {}
}
