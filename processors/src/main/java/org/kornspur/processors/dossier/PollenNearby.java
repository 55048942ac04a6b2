package org.kornspur.processors.dossier;

import java.util.Optional;
import org.kornspur.processors.dossier.Report.Neighbour;
import org.kornspur.processors.ground.OutlineDistance;
import org.kornspur.processors.ground.Plot;

/** What the ground tells a crop of pollen near it. */
public final class PollenNearby {

  private PollenNearby() {}

  /**
   * What a plot is to a crop.
   *
   * @param areaHa area of the source, hectares
   * @param separation from the crop to the source
   */
  public static Neighbour of(Plot crop, Plot source, double areaHa, OutlineDistance separation) {
    return new Neighbour(
        source.subject(),
        separation.distanceM(),
        areaHa,
        separation.onFirst(),
        separation.onSecond(),
        source.sourceKind(),
        source.sheddingFrom(),
        source.sheddingTo(),
        source.factId(),
        source.reportedBy(),
        Optional.of(true).filter(same -> crop.pollenId().equals(source.pollenId())));
  }
}
