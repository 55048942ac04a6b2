package org.kornspur.processors.advice;

import org.kornspur.ingest.statement.Statement;
import org.kornspur.ingest.statement.Value.Amount;

/** Why no advice can be given on what was asked. */
public sealed interface AdviceRefusal extends Statement {
  record NoMass(Amount mass) implements AdviceRefusal {}

  record ShareOutside(Amount share) implements AdviceRefusal {}

  record NegativeTolerance(Amount tolerance) implements AdviceRefusal {}

  record RisksOutside(Amount alpha, Amount beta) implements AdviceRefusal {}

  record MultipleTooSmall(Amount multiple) implements AdviceRefusal {}

  record MultipleTooLarge(Amount multiple, Amount limit, Amount rejectable)
      implements AdviceRefusal {}

  record NumberOfContainers(int most, int given) implements AdviceRefusal {}

  record ResultOutside(Amount most, Amount result) implements AdviceRefusal {}

  /** Each container needs both counts. */
  record KernelsOfEachContainer(int containers, int given) implements AdviceRefusal {}

  record KernelsOutside(int least, Amount most, Amount count) implements AdviceRefusal {}

  record OnlyForBlendShare() implements AdviceRefusal {}

  record PercentOutside(Amount percent) implements AdviceRefusal {}

  record NegativeCount(int count) implements AdviceRefusal {}
}
