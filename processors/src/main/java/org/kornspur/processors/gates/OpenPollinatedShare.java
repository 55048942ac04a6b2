package org.kornspur.processors.gates;

import java.util.List;
import java.util.Optional;
import org.kornspur.contract.Admixture;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.finding.Advice;
import org.kornspur.processors.finding.Aspect;
import org.kornspur.processors.finding.ComponentsFinding;
import org.kornspur.processors.gates.Findings.GateAspect;
import org.kornspur.processors.standards.Quantity;
import org.kornspur.processors.standards.Rulebook;
import org.kornspur.processors.statistics.Rounding;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Verdict;

/**
 * Open-pollinated rye in hybrid seed to which it was added, percent of the mass to one decimal,
 * with what had been added to its parts before. No text read gives a number; common practice stands
 * in.
 */
final class OpenPollinatedShare {
  private static final GateAspect AT =
      GateAspect.of(
          Gate.COMPONENTS,
          "open-pollinated share",
          new Aspect.Kind(Quantity.OPEN_POLLINATED_SHARE));

  private OpenPollinatedShare() {}

  /** Empty for lots without an admixture. */
  static Optional<Verdict> judge(Dossier dossier, Rulebook rulebook) {
    List<Admixture> admixtures =
        dossier.facts(Admixture.class).stream()
            .filter(admixture -> Subject.lot(admixture.getIntoLotId()).equals(dossier.subject()))
            .toList();
    if (admixtures.isEmpty()) {
      return Optional.empty();
    }
    double percent = Rounding.tenthPercent(dossier.openPollinatedPercent());
    return SeedLot.of(dossier, rulebook)
        .flatMap(lot -> lot.limit(Quantity.OPEN_POLLINATED_SHARE))
        .map(
            limit ->
                Findings.of(
                        AT,
                        FactType.idsOf(admixtures),
                        new ComponentsFinding.OpenPollinated(Amount.percent(percent)))
                    .against(percent, limit, List.of(new Advice.CorrectOrNotSo())));
  }
}
