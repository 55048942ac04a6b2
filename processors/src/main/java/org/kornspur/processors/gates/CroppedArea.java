package org.kornspur.processors.gates;

import java.util.List;
import org.kornspur.contract.CropRole;
import org.kornspur.contract.FieldCropDeclared;
import org.kornspur.contract.Sowing;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.ground.Area;
import org.kornspur.processors.ground.InvalidOutline;
import org.kornspur.processors.ground.Outline;

/**
 * Where a crop stands: what was sown, within its outline.
 *
 * @param outlineHa 0 where there is no readable outline
 * @param sownHa hectares of all sowings together; 0 where nothing is sown
 * @param sownAtLeastHa the same where one sowing may have gone over the area of another
 */
record CroppedArea(double outlineHa, double sownHa, double sownAtLeastHa) {
  /** How much more may be sown than the outline holds, by how both are measured: no source. */
  private static final double MEASURED_AMISS = 1.05;

  static CroppedArea of(Dossier dossier) {
    List<Sowing> sowings = dossier.facts(Sowing.class);
    double sownHa = sowings.stream().mapToDouble(Sowing::getAreaHa).sum();
    boolean hasStrips =
        dossier
            .crop()
            .map(FieldCropDeclared::getRole)
            .filter(role -> role == CropRole.STERILE_FEMALE)
            .isPresent();
    return new CroppedArea(
        outlineHa(dossier),
        sownHa,
        hasStrips ? sowings.stream().mapToDouble(Sowing::getAreaHa).max().orElse(0) : sownHa);
  }

  /** The lesser of both, of what is known. */
  double hectares() {
    return sownHa > 0 && outlineHa > 0 ? Math.min(sownHa, outlineHa) : Math.max(sownHa, outlineHa);
  }

  boolean isSownBeyondOutline() {
    return outlineHa > 0 && sownAtLeastHa > MEASURED_AMISS * outlineHa;
  }

  private static double outlineHa(Dossier dossier) {
    try {
      return dossier.crop().map(crop -> Area.hectares(Outline.of(crop.getOutline()))).orElse(0.0);
    } catch (InvalidOutline unreadable) {
      return 0; // the join says so itself
    }
  }
}
