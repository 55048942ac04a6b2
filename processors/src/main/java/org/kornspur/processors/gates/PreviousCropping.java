package org.kornspur.processors.gates;

import java.util.List;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.finding.Advice;
import org.kornspur.processors.finding.Evidence;
import org.kornspur.processors.finding.GroundFinding;
import org.kornspur.processors.standards.Limit;
import org.kornspur.processors.standards.Quantity;
import org.kornspur.processors.standards.Rulebook;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Verdict;

/**
 * Years before sowing in which no rye stood on the ground, as declared.
 *
 * <p>Seed Ordinance (SaatV), section 5(1a): two for basic seed of the female component, one for
 * basic seed of the male component and for certified seed. Council Directive 66/402/EEC, Annex I
 * no. 1, asks without a number that earlier crops are not incompatible.
 */
final class PreviousCropping implements GateRule {

  @Override
  public Gate gate() {
    return Gate.PREVIOUS_CROPPING;
  }

  @Override
  public List<Verdict> judge(Dossier dossier, Rulebook rulebook) {
    return SeedCrop.of(dossier, rulebook)
        .flatMap(
            crop ->
                crop.limit(Quantity.YEARS_WITHOUT_RYE).map(limit -> List.of(judge(crop, limit))))
        .orElse(List.of());
  }

  private static Verdict judge(SeedCrop crop, Limit limit) {
    Integer years = crop.declaration().getYearsWithoutRye();
    if (years == null) {
      return Found.missing(Gate.PREVIOUS_CROPPING, limit, new Evidence.YearsWithoutRye());
    }
    return Found.of(
            Gate.PREVIOUS_CROPPING,
            List.of(crop.declarationId()),
            new GroundFinding.YearsWithoutRye(years))
        .against(years, limit, List.of(new Advice.GrowElsewhere(), new Advice.AuthorityDecides()));
  }
}
