package org.kornspur.processors.gates;

import java.util.List;
import org.kornspur.contract.Condemnation;
import org.kornspur.contract.CondemnationGround;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.statement.Value.Person;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.finding.Advice;
import org.kornspur.processors.finding.CondemnationFinding;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Verdict;

/**
 * A person condemned the crop or lot. It needs no rulebook, and nothing is said of what nobody
 * condemned. The measured value is the number of condemnations.
 *
 * <p>How far it reaches is what the person founded it on. Impurity or a wrong identity is in the
 * seed's kind and goes to every descendant; dead or damaged seed is so itself, and what it was sown
 * for or grown from it earlier is not. Common practice, no source.
 */
public final class Condemned {

  private Condemned() {}

  public static List<Verdict> judge(Dossier dossier) {
    return List.of(CondemnationGround.values()).stream()
        .map(
            ground ->
                dossier.facts(Condemnation.class).stream()
                    .filter(condemnation -> condemnation.getGround() == ground)
                    .toList())
        .filter(condemnations -> !condemnations.isEmpty())
        .map(Condemned::verdict)
        .toList();
  }

  private static Verdict verdict(List<Condemnation> condemnations) {
    Condemnation first = condemnations.get(0);
    return Findings.of(
            gate(first.getGround()),
            FactType.idsOf(condemnations),
            new CondemnationFinding.Condemned(
                new Person(first.getSignature().getSignerId()),
                first.getSignature().getSignedAt(),
                first.getReason()))
        .mustBeNone(condemnations.size(), "condemnations", new Advice.CorrectCondemnation());
  }

  private static Gate gate(CondemnationGround ground) {
    return switch (ground) {
      case PURITY_OR_IDENTITY -> Gate.CONDEMNATION;
      case SEED_QUALITY -> Gate.CONDEMNATION_OF_SEED;
    };
  }
}
