package org.kornspur.processors.gates;

import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.kornspur.contract.Conditioning;
import org.kornspur.contract.LotMass;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.statement.Coded;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.finding.BasisFinding;
import org.kornspur.processors.pedigree.Edge;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Verdict;

/**
 * Whether seed that was moved is still what it was, for what a gate found of it. Seed that was
 * divided or mixed always is. Conditioned seed is another where something was taken out of it:
 * screenings, for moisture water; for germination a treatment too may have removed the defect.
 *
 * <p>Common practice, no source; that the defect must be removed before a new sample counts: Seed
 * Ordinance (SaatV), section 12(2).
 */
public final class SameSeed {
  private static final Set<FactType> DIVIDED_OR_MIXED =
      EnumSet.of(FactType.LOT_SPLIT, FactType.LOT_MERGE, FactType.BLEND, FactType.ADMIXTURE);

  /** Part of what went in that must have been taken out; less is what scales differ by. */
  private static final double LEAST_TAKEN_OUT = 0.001;

  private static final String NOT_SETTLED = Coded.codeOf(BasisFinding.NotSettled.class);

  private SameSeed() {}

  /**
   * Whether a movement leaves seed what it was for a gate.
   *
   * @param lot where the seed came from or went, which knows the movement
   */
  public static boolean isMovedBy(Edge edge, Gate gate, Dossier lot) {
    return DIVIDED_OR_MIXED.contains(edge.by())
        || conditioning(edge, lot).filter(work -> !mends(work, gate)).isPresent();
  }

  /** Whether what a test showed goes wherever its seed goes: a failure, or a doubt about one. */
  public static boolean goesAlong(Verdict verdict) {
    return verdict instanceof Verdict.NotMet
        || (verdict instanceof Verdict.Owed
            && verdict.findings().stream().anyMatch(found -> found.code().equals(NOT_SETTLED)));
  }

  private static Optional<Conditioning> conditioning(Edge edge, Dossier lot) {
    return edge.by() == FactType.CONDITIONING
        ? lot.facts(Conditioning.class).stream()
            .filter(work -> FactType.idOf(work).equals(edge.factId()))
            .findFirst()
        : Optional.empty();
  }

  private static boolean mends(Conditioning work, Gate gate) {
    double leastKg = LEAST_TAKEN_OUT * kg(work.getInputs());
    boolean isCleaned = work.getScreeningsKg() > leastKg;
    return switch (gate) {
      case MOISTURE -> waterKg(work) > leastKg;
      case GERMINATION -> isCleaned || work.getTreatment() != null;
      default -> isCleaned;
    };
  }

  /** Where nobody weighed it, what the outputs and screenings leave unexplained. */
  private static double waterKg(Conditioning work) {
    return work.getDryingLossKg() != null
        ? work.getDryingLossKg()
        : kg(work.getInputs()) - kg(work.getOutputs()) - work.getScreeningsKg();
  }

  private static double kg(List<LotMass> parts) {
    return parts.stream().mapToDouble(LotMass::getMassKg).sum();
  }
}
