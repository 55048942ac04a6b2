package org.kornspur.processors.gates;

import java.util.List;
import java.util.stream.Stream;
import org.kornspur.contract.Sowing;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.finding.Evidence;
import org.kornspur.processors.finding.GroundFinding;
import org.kornspur.processors.ground.Area;
import org.kornspur.processors.ground.Outline;
import org.kornspur.processors.standards.Limit;
import org.kornspur.processors.standards.Quantity;
import org.kornspur.processors.standards.Rulebook;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Measured;
import org.kornspur.processors.verdict.Verdict;

/**
 * Area that was sown within the crop's outline, hectares, by which the authority certifies at all.
 *
 * <p>Seed Ordinance (SaatV), section 5(1) no. 1: at least 2 ha; the authority may grant exceptions
 * (section 5(3)), so a smaller crop owes that.
 */
final class CropAreaGate implements GateRule {

  @Override
  public List<Verdict> judge(Dossier dossier, Rulebook rulebook) {
    return SeedCrop.of(dossier, rulebook)
        .flatMap(crop -> crop.limit(Quantity.CROP_AREA).map(limit -> List.of(judge(crop, limit))))
        .orElse(List.of());
  }

  private static Verdict judge(SeedCrop crop, Limit limit) {
    double outlineHa = Area.hectares(Outline.of(crop.declaration().getOutline()));
    double areaHa = Math.min(outlineHa, CroppedArea.of(crop.dossier()).hectares());
    Findings found =
        Findings.of(
            Gate.CROP_AREA, factIds(crop), new GroundFinding.Area(new Amount(outlineHa, "ha")));
    if (areaHa < outlineHa) {
      found = found.and(new GroundFinding.AreaSown(new Amount(areaHa, "ha")));
    }
    if (limit.holds(areaHa)) {
      return found.against(areaHa, limit, List.of());
    }
    return crop.isAccepted(crop.declaration().getSmallAreaAccepted())
        ? found
            .and(new GroundFinding.SmallAreaAccepted())
            .decided(
                true, Measured.exact(areaHa, limit.unit(), limit.margin(areaHa)), limit, List.of())
        : found.owed(limit, new Evidence.ExceptionForArea());
  }

  private static List<String> factIds(SeedCrop crop) {
    return Stream.concat(
            Stream.of(crop.declarationId()),
            FactType.idsOf(crop.dossier().facts(Sowing.class)).stream())
        .toList();
  }
}
