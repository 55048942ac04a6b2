package org.kornspur.processors.finding;

import java.util.List;
import java.util.Optional;
import org.kornspur.contract.ShareBasis;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.statement.Statement;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.ingest.statement.Value.Fact;

/** What is known of the share of pollinator in a mixture. */
public sealed interface BlendFinding extends Finding {
  record NoRatio(Subject hybrid) implements BlendFinding {}

  /** What went into the mixture is not on record here. */
  record BoughtIn() implements BlendFinding {}

  record ImpossibleRatio(Subject hybrid, Amount share, Amount tolerance) implements BlendFinding {}

  record ShareUnknown(ShareBasis basis) implements BlendFinding {}

  /** By what went in. */
  record Mixed(Amount share, ShareBasis basis) implements BlendFinding {}

  /** The same share on the bases that the breeder does not state. */
  record OnOtherBases(List<Statement> shares) implements BlendFinding {}

  record OnBasis(Amount share, ShareBasis basis) implements BlendFinding {}

  /** By a sample of kernels told apart. */
  record Sampled(
      Amount share,
      ShareBasis basis,
      int pollinator,
      int kernels,
      Amount lower,
      Amount upper,
      Amount confidence)
      implements BlendFinding {}

  /**
   * What a thousand kernels of each component weighed in the sample in which they were told apart.
   */
  record Weighed(Amount pollinator, Amount female) implements BlendFinding {}

  /** Something was taken out of the mixture, and no sample shows what is left of each component. */
  record Graded(List<Fact> conditionings) implements BlendFinding {}

  record OtherBasis(ShareBasis counted, ShareBasis asked) implements BlendFinding {}

  /** Where tests of the lots that went in agree, and some of them alone give a share outside. */
  record BySingleTests(Amount lowest, Amount highest) implements BlendFinding {}

  /** A lot whose thousand-kernel weight is not known for want of replicates that count. */
  record TooFewReplicates(Subject lot, int replicates, int least) implements BlendFinding {}

  /** Its tests contradict each other: from the lightest to the heaviest, percent of the mean. */
  record KernelWeightsApart(Subject lot, Amount apart, Statement most) implements BlendFinding {}

  record NotClearlyOutside() implements BlendFinding {}

  /** How the limit came about. */
  record Ratio(Amount share, Amount tolerance, Optional<Statement> extra, Fact masterData)
      implements BlendFinding {}
}
