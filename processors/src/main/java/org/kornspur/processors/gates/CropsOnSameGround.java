package org.kornspur.processors.gates;

import java.util.List;
import java.util.Optional;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.Report.OnSameGround;
import org.kornspur.processors.finding.Aspect;
import org.kornspur.processors.finding.Evidence;
import org.kornspur.processors.finding.OriginFinding;
import org.kornspur.processors.gates.Findings.GateAspect;
import org.kornspur.processors.ground.Area;
import org.kornspur.processors.ground.Outline;
import org.kornspur.processors.standards.Limit;
import org.kornspur.processors.standards.Quantity;
import org.kornspur.processors.standards.Rulebook;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Verdict;

/**
 * Two seed crops of one year on one ground cannot both have been grown, and what was counted in the
 * one was counted in the plants of the other: neither is fit until one of them is put right. Common
 * practice, no source; from which part of the smaller on they share ground says the rulebook.
 */
final class CropsOnSameGround {
  private CropsOnSameGround() {}

  static Optional<Verdict> judge(Dossier dossier, Rulebook rulebook) {
    return SeedCrop.of(dossier, rulebook).flatMap(CropsOnSameGround::judge);
  }

  private static Optional<Verdict> judge(SeedCrop crop) {
    List<OnSameGround> others = crop.dossier().onSameGround();
    if (others.isEmpty()) {
      return Optional.empty();
    }
    double cropHa = Area.hectares(Outline.of(crop.declaration().getOutline()));
    Optional<Limit> least = crop.limit(Quantity.SAME_GROUND);
    return others.stream()
        .filter(other -> isShared(other, Math.min(cropHa, other.areaHa()), least))
        .findFirst()
        .map(other -> owed(crop, other));
  }

  private static boolean isShared(OnSameGround other, double smallerHa, Optional<Limit> least) {
    return least.map(limit -> limit.holds(100 * other.commonHa() / smallerHa)).orElse(true);
  }

  private static Verdict owed(SeedCrop crop, OnSameGround other) {
    return Findings.of(
            GateAspect.of(Gate.ORIGIN, "one ground", new Aspect.OneGround()),
            List.of(crop.declarationId(), other.factId()),
            new OriginFinding.OnOneGround(other.crop(), new Amount(other.commonHa(), "ha")))
        .owed(new Evidence.OneCropOfGround(other.crop()));
  }
}
