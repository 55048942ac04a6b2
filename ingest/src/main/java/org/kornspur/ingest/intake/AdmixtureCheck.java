package org.kornspur.ingest.intake;

import org.kornspur.contract.Admixture;

/** Hybrid seed with open-pollinated rye added is a new lot. */
final class AdmixtureCheck {

  private AdmixtureCheck() {}

  static void check(Admixture admixture, Problems into) {
    new LotsOnce(into)
        .lots("hybridLots", admixture.getHybridLots())
        .lots("openPollinatedLots", admixture.getOpenPollinatedLots())
        .lot("intoLotId", admixture.getIntoLotId());
  }
}
