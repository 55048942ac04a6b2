package org.kornspur.processors.gates;

import java.util.List;
import java.util.Optional;
import org.kornspur.contract.Conditioning;
import org.kornspur.contract.LotMass;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Movement;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.statement.Coded;
import org.kornspur.processors.balance.ConditioningAccount;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.finding.BasisFinding;
import org.kornspur.processors.pedigree.Edge;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Verdict;

/**
 * Whether seed that was moved is still what it was, for what a gate found of it. Seed that was
 * divided or mixed always is. Conditioned seed is another where so much was taken out of it that
 * the defect can have gone with it: screenings, for moisture water; for germination a treatment too
 * may have removed it. Each work counts by itself, so that no order of several matters.
 *
 * <p>Common practice, no source, for all shares; that the defect must be removed before a new
 * sample counts: Seed Ordinance (SaatV), section 12(2).
 */
public final class SameSeed {
  /** Part of what went in that a cleaning takes out at least: cleaning of rye takes 10 to 25 %. */
  private static final double LEAST_SCREENINGS = 0.01;

  /** Part of what went in that a drying takes out at least: about a quarter point of moisture. */
  private static final double LEAST_WATER = 0.003;

  /** Part of what went in that a drying takes out of a mixture at most: from 15 to 9 % moisture. */
  private static final double MOST_WATER = 0.07;

  /** Part of what went in that scales differ by. */
  static final double ERROR_OF_SCALES = 0.001;

  private static final String NOT_SETTLED = Coded.codeOf(BasisFinding.NotSettled.class);

  private SameSeed() {}

  /**
   * Whether a movement leaves seed what it was for a gate.
   *
   * @param lot where the seed came from or went, which knows the movement
   */
  public static boolean isMovedBy(Edge edge, Gate gate, Dossier lot) {
    return edge.by().moves(Movement.REGROUPED, Movement.MIXED)
        || conditioning(edge.factId(), lot).filter(work -> !mends(work, gate)).isPresent();
  }

  /**
   * Whether what a lot failed speaks against the seed that it came from. A treatment may have
   * harmed it, and then other seed that was treated so. Cleaning takes out dead kernels and other
   * species, and makes no other plants of the seed. The share of a mixture is that of no part that
   * went into it, and what grows from several components is not what grows from one.
   *
   * @param lot the lot that failed
   */
  public static boolean tellsOfParent(Edge edge, Gate gate, Dossier lot) {
    return switch (gate) {
      case POST_CONTROL -> edge.by().keepsHarvest();
      case BLEND_SHARE -> edge.by().keepsHarvest() && !isGradedBy(edge, lot);
      default ->
          edge.by().moves(Movement.REGROUPED, Movement.MIXED)
              || conditioning(edge.factId(), lot).filter(work -> !isCleaned(work)).isPresent();
    };
  }

  /** Whether what a test showed goes wherever its seed goes: a failure, or a doubt about one. */
  public static boolean goesAlong(Verdict verdict) {
    return verdict instanceof Verdict.NotMet
        || (verdict instanceof Verdict.Owed
            && verdict.findings().stream().anyMatch(found -> found.code().equals(NOT_SETTLED)));
  }

  /**
   * Whether a movement took something out of a mixture, so that its components need no longer lie
   * in it as they were mixed: kernels of one are smaller than those of the other. So does what went
   * without a record, and a machine that gives several lots, where it does not only treat them.
   * Less than scales differ by is nothing.
   */
  static boolean isGradedBy(Edge edge, Dossier lot) {
    return conditioning(edge.factId(), lot).filter(SameSeed::isGrading).isPresent();
  }

  private static boolean isGrading(Conditioning work) {
    ConditioningAccount account = ConditioningAccount.of(work);
    double inKg = account.inputKg();
    double keptKg = account.outputKg() + Math.min(account.dryingLossKg(), MOST_WATER * inKg);
    boolean isSorted = !ConditioningAccount.isTreated(work) && lots(work.getOutputs()) > 1;
    return isSorted || Math.max(account.screeningsKg(), inKg - keptKg) > ERROR_OF_SCALES * inKg;
  }

  /** Number of different lots. */
  static long lots(List<LotMass> parts) {
    return parts.stream().map(LotMass::getLotId).map(Subject::lot).distinct().count();
  }

  /** The conditioning that a movement is of; empty where it is another. */
  static Optional<Conditioning> conditioning(String factId, Dossier lot) {
    return lot.facts(Conditioning.class).stream()
        .filter(work -> FactType.idOf(work).equals(factId))
        .findFirst();
  }

  private static boolean mends(Conditioning work, Gate gate) {
    return switch (gate) {
      case MOISTURE -> waterKg(work) >= LEAST_WATER * ConditioningAccount.of(work).inputKg();
      case GERMINATION -> isCleaned(work) || work.getTreatment() != null;
      default -> isCleaned(work);
    };
  }

  private static boolean isCleaned(Conditioning work) {
    return work.getScreeningsKg() >= LEAST_SCREENINGS * ConditioningAccount.of(work).inputKg();
  }

  /** Where nobody weighed it, what the outputs and screenings leave unexplained. */
  private static double waterKg(Conditioning work) {
    ConditioningAccount account = ConditioningAccount.of(work);
    return work.getDryingLossKg() != null
        ? account.dryingLossKg()
        : account.inputKg() - account.outputKg() - account.screeningsKg();
  }
}
