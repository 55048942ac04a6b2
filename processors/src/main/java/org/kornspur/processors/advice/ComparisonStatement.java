package org.kornspur.processors.advice;

import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.processors.finding.Reference;
import org.kornspur.processors.statistics.Agreement;
import org.kornspur.processors.statistics.NoTable;

/** Whether two values agree, and by which rule. */
public sealed interface ComparisonStatement extends AdviceStatement {
  record LabelGermination() implements ComparisonStatement {}

  record LabelGerminationTolerance() implements ComparisonStatement {}

  record LabelPurity() implements ComparisonStatement {}

  record LabelOtherSeeds() implements ComparisonStatement {}

  record TwoTests() implements ComparisonStatement {}

  record ContainerRange() implements ComparisonStatement {}

  record Agree(ComparisonStatement rule, Amount difference, Amount tolerated, Reference source)
      implements ComparisonStatement {}

  record Differ(ComparisonStatement rule, Amount difference, Amount tolerated, Reference source)
      implements ComparisonStatement {}

  record NoTolerance(ComparisonStatement rule, NoTable reason) implements ComparisonStatement {}

  static ComparisonStatement of(ComparisonStatement rule, Agreement agreement) {
    if (agreement instanceof Agreement.Agrees agrees) {
      return new Agree(
          rule,
          new Amount(agrees.difference(), agrees.unit()),
          new Amount(agrees.tolerated(), agrees.unit()),
          Reference.of(agrees.source()));
    }
    if (agreement instanceof Agreement.Disagrees disagrees) {
      return new Differ(
          rule,
          new Amount(disagrees.difference(), disagrees.unit()),
          new Amount(disagrees.tolerated(), disagrees.unit()),
          Reference.of(disagrees.source()));
    }
    return new NoTolerance(rule, ((Agreement.NotTabulated) agreement).reason());
  }
}
