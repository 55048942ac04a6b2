package org.kornspur.ingest.intake;

import org.kornspur.contract.Sowing;

/** Each lot sown stands once. */
final class SowingCheck {

  private SowingCheck() {}

  static void check(Sowing sowing, Problems into) {
    new LotsOnce(into).lots("sown", sowing.getSown());
  }
}
