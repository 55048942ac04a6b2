package org.kornspur.processors.advice;

import java.time.LocalDate;
import java.util.List;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.processors.ground.FloweringOverlap.UnknownDay;

/** What a forecast of hybridity says, and what it leaves out. */
public sealed interface ForecastStatement extends AdviceStatement {

  /** Parts of the harvest. */
  record Expected(
      Subject crop,
      Amount hybrid,
      Amount lower,
      Amount upper,
      Amount fromShedders,
      Amount outcrossed,
      Amount onPollinator)
      implements ForecastStatement {}

  record AdviceOnly() implements ForecastStatement {}

  record PlantsAlike() implements ForecastStatement {}

  record SheddersStay() implements ForecastStatement {}

  /** Some source is taken as a square, for an outline is not known. */
  record SquareSources() implements ForecastStatement {}

  record NoWind() implements ForecastStatement {}

  record OneWind() implements ForecastStatement {}

  record NearSourcesOnly() implements ForecastStatement {}

  /** A source that does not flower together with the crop. */
  record Apart(LocalDate earlierEnds, LocalDate laterBegins) implements ForecastStatement {}

  record Together(LocalDate from, LocalDate to) implements ForecastStatement {}

  record AssumedTogether(List<UnknownDay> unknown) implements ForecastStatement {}
}
