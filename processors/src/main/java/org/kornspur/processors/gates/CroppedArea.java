package org.kornspur.processors.gates;

import java.util.List;
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
 * @param largestHa hectares of the largest sowing, for any other may have gone over it: strips, or
 *     ground that was drilled again
 */
record CroppedArea(double outlineHa, double sownHa, double largestHa) {
  /**
   * How much more may be sown or counted than the outline holds, by how both are measured: no
   * source.
   */
  private static final double MEASURED_AMISS = 1.05;

  static CroppedArea of(Dossier dossier) {
    List<Sowing> sowings = dossier.facts(Sowing.class);
    return new CroppedArea(
        outlineHa(dossier),
        sowings.stream().mapToDouble(Sowing::getAreaHa).sum(),
        sowings.stream().mapToDouble(Sowing::getAreaHa).max().orElse(0));
  }

  /** The lesser of both, of what is known. */
  double hectares() {
    return sownHa > 0 && outlineHa > 0 ? Math.min(sownHa, outlineHa) : Math.max(sownHa, outlineHa);
  }

  boolean isSownBeyondOutline() {
    return isBeyondOutline(largestHa);
  }

  boolean isBeyondOutline(double hectares) {
    return outlineHa > 0 && hectares > MEASURED_AMISS * outlineHa;
  }

  private static double outlineHa(Dossier dossier) {
    try {
      return dossier.crop().map(crop -> Area.hectares(Outline.of(crop.getOutline()))).orElse(0.0);
    } catch (InvalidOutline unreadable) {
      return 0; // the join says so itself
    }
  }
}
