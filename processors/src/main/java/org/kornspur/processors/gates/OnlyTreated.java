package org.kornspur.processors.gates;

import java.util.List;
import org.kornspur.contract.Conditioning;
import org.kornspur.processors.balance.ConditioningAccount;
import org.kornspur.processors.balance.MassFlow;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.Report;
import org.kornspur.processors.pedigree.Edge;

/**
 * Seed of one lot that was treated and nothing else: nothing was taken out of it, and nothing came
 * in. It is a new lot, and what was found of the whole of the untreated one is so for it too. Seed
 * is usually sampled before it is treated; common practice, no source.
 */
final class OnlyTreated {
  private OnlyTreated() {}

  /**
   * Whether a lot is all the seed of its parent, only treated, at one time: what was treated before
   * the rest was sampled is not known.
   */
  static boolean isAllOf(Report.FromParent parent, Dossier lot) {
    List<String> movements = lot.edgesIn().stream().map(Edge::factId).distinct().toList();
    return movements.size() == 1 && isOf(heldKg(parent), movements.get(0), lot);
  }

  /**
   * Whether seed goes out of a lot to be treated with all the rest, so that a lot may rest on it.
   */
  static boolean isOfAll(MassFlow out, SeedLot lot) {
    return isOf(lot.totalKg(MassFlow.Direction.IN), out.factId(), lot.dossier());
  }

  private static boolean isOf(double heldKg, String factId, Dossier lot) {
    return SameSeed.conditioning(factId, lot)
        .filter(OnlyTreated::is)
        .map(ConditioningAccount::of)
        .filter(account -> account.inputKg() >= (1 - SameSeed.ERROR_OF_SCALES) * heldKg)
        .isPresent();
  }

  /** Of one that is too large for one sample nothing is taken over. */
  private static double heldKg(Report.FromParent parent) {
    return parent
        .heldKg()
        .filter(held -> SeedLot.isOfOneSample(parent.seedVerdicts()))
        .orElse(Double.POSITIVE_INFINITY);
  }

  /** Whether a movement of seed in this lot only treats it. */
  static boolean isBy(String factId, Dossier lot) {
    return SameSeed.conditioning(factId, lot).filter(OnlyTreated::is).isPresent();
  }

  private static boolean is(Conditioning work) {
    ConditioningAccount account = ConditioningAccount.of(work);
    double takenOutKg =
        Math.max(
            account.screeningsKg() + account.dryingLossKg(),
            account.inputKg() - account.outputKg());
    return ConditioningAccount.isTreated(work)
        && SameSeed.lots(work.getInputs()) == 1
        && takenOutKg <= SameSeed.ERROR_OF_SCALES * account.inputKg();
  }
}
