package org.kornspur.processors.advice;

import java.time.LocalDate;
import org.kornspur.contract.FloweringPart;
import org.kornspur.ingest.statement.Value.Amount;

/** How the flowering of female and pollen parent meets, and what follows from it. */
public sealed interface NickingStatement extends AdviceStatement {
  record Flowered(FloweringPart part, LocalDate from, LocalDate to) implements NickingStatement {}

  record FullFlower(FloweringPart part, LocalDate on) implements NickingStatement {}

  record Together(LocalDate from, LocalDate to, int days, Amount share)
      implements NickingStatement {}

  record NoDayTogether(LocalDate earlierEnds, LocalDate laterBegins) implements NickingStatement {}

  record FullApart(int days) implements NickingStatement {}

  /** Days on which the female flowered and nothing shed for it. */
  record OpenFlorets(int days) implements NickingStatement {}

  record AdviceOnly() implements NickingStatement {}
}
