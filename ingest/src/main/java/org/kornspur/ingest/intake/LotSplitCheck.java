package org.kornspur.ingest.intake;

import org.kornspur.contract.LotSplit;

/** The parts of a lot are lots of their own. */
final class LotSplitCheck {

  private LotSplitCheck() {}

  static void check(LotSplit split, Problems into) {
    new LotsOnce(into).lot("fromLotId", split.getFromLotId()).lots("parts", split.getParts());
  }
}
