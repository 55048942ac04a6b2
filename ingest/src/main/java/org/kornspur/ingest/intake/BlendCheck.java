package org.kornspur.ingest.intake;

import org.kornspur.contract.Blend;

/** A technical mixture is a new lot, and no lot is female and pollinator at once. */
final class BlendCheck {

  private BlendCheck() {}

  static void check(Blend blend, Problems into) {
    new LotsOnce(into)
        .lots("females", blend.getFemales())
        .lots("pollinators", blend.getPollinators())
        .lot("blendLotId", blend.getBlendLotId());
  }
}
