package org.kornspur.ingest.intake;

import org.kornspur.contract.LotMerge;

/** Lots put together make a new lot. */
final class LotMergeCheck {

  private LotMergeCheck() {}

  static void check(LotMerge merge, Problems into) {
    new LotsOnce(into).lots("inputs", merge.getInputs()).lot("intoLotId", merge.getIntoLotId());
  }
}
