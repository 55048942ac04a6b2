package org.kornspur.processors.advice;

import java.util.List;
import org.kornspur.contract.ShareBasis;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.ingest.statement.Value.Fact;
import org.kornspur.processors.finding.Part;

/** What to mix, or why it cannot be mixed. */
public sealed interface MixtureStatement extends AdviceStatement {
  record Mix(List<OfLot> lots) implements MixtureStatement {}

  record OfLot(Amount mass, Subject lot) implements MixtureStatement {}

  record Wanted(Amount mass, Amount share, ShareBasis basis, Amount tolerance)
      implements MixtureStatement {}

  record NoLot(Wanted wanted, Part part) implements MixtureStatement {}

  record RunsOut(Wanted wanted, Part part, Amount female, Amount pollinator, Amount most)
      implements MixtureStatement {}

  record NotFit(Subject lot) implements MixtureStatement {}

  record EvidenceOwed(Subject lot) implements MixtureStatement {}

  record NothingLeft(Subject lot, Amount mass) implements MixtureStatement {}

  record NoKernelWeight(Subject lot) implements MixtureStatement {}

  record NoGermination(Subject lot) implements MixtureStatement {}

  record UnusableGermination(Subject lot, Amount germination) implements MixtureStatement {}

  /** Named in the request; no fact names it, or the caller does not see it. */
  record UnknownLot(String lot) implements MixtureStatement {}

  record OtherComponent(Subject lot, String component) implements MixtureStatement {}

  record RawHarvest(Subject lot) implements MixtureStatement {}

  /** Where the breeder's ratio stands. */
  record MasterData(Fact fact) implements MixtureStatement {}

  record AdviceOnly() implements MixtureStatement {}
}
