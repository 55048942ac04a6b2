package org.kornspur.processors.dossier;

import java.util.List;
import java.util.Optional;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.contract.BlendComposition;
import org.kornspur.contract.GerminationTest;
import org.kornspur.contract.KernelWeightTest;
import org.kornspur.contract.MoistureTest;
import org.kornspur.contract.OtherSeedDetermination;
import org.kornspur.contract.PostControlMethod;
import org.kornspur.contract.PostControlResult;
import org.kornspur.contract.PurityTest;
import org.kornspur.contract.Sampling;
import org.kornspur.contract.TestKind;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.intake.IdRule;

/** Which facts are made by laboratories or samplers, and whether these were declared for them. */
public final class LaboratoryResults {
  private static final String LABORATORY = "laboratoryId";

  private LaboratoryResults() {}

  /**
   * The kind of test that a fact is the result of, or sampling; empty for what neither laboratory
   * nor sampler makes.
   */
  public static Optional<TestKind> kindOf(SpecificRecord fact) {
    if (fact instanceof Sampling) {
      return Optional.of(TestKind.SAMPLING);
    } else if (fact instanceof GerminationTest) {
      return Optional.of(TestKind.GERMINATION);
    } else if (fact instanceof PurityTest) {
      return Optional.of(TestKind.PURITY);
    } else if (fact instanceof OtherSeedDetermination) {
      return Optional.of(TestKind.OTHER_SEEDS);
    } else if (fact instanceof MoistureTest) {
      return Optional.of(TestKind.MOISTURE);
    } else if (fact instanceof KernelWeightTest) {
      return Optional.of(TestKind.KERNEL_WEIGHT);
    }
    boolean tellsApart =
        fact instanceof BlendComposition
            || (fact instanceof PostControlResult result
                && result.getMethod() == PostControlMethod.MARKER);
    return tellsApart ? Optional.of(TestKind.IDENTITY) : Optional.empty();
  }

  /**
   * The laboratory that a result names, or the sampler of a sample. The number of a sampler is free
   * text in the contract: what is no id can be nobody's.
   */
  public static Optional<Subject> laboratoryOf(SpecificRecord fact) {
    if (fact instanceof Sampling sampling) {
      return Optional.of(sampling.getSamplerAccreditation().strip())
          .filter(IdRule::isId)
          .map(Subject::enterprise);
    }
    return FactType.text(fact, LABORATORY).map(Subject::enterprise);
  }

  /** Laboratories that made tests of a lot and samplers that drew its samples, by their ids. */
  public static List<Subject> laboratoriesOf(Dossier lot) {
    return lot.entries().stream()
        .map(Entry::fact)
        .filter(fact -> kindOf(fact).isPresent())
        .flatMap(fact -> laboratoryOf(fact).stream())
        .distinct()
        .sorted()
        .toList();
  }

  /** Whether a fact is no result, or one of somebody who was declared for it on its day. */
  public static boolean isDeclared(Dossier lot, SpecificRecord fact) {
    return kindOf(fact)
        .map(
            kind ->
                laboratoryOf(fact).stream()
                    .flatMap(laboratory -> lot.accreditationsOf(laboratory).stream())
                    .filter(accredited -> accredited.test() == kind)
                    .anyMatch(accredited -> accredited.holdsOn(FactType.dayOf(fact))))
        .orElse(true);
  }
}
