package org.kornspur.ingest.intake;

import org.kornspur.contract.PollenSourceSeen;

/** A source of pollen stands somewhere, and is seen before it ends. */
final class PollenSourceCheck {

  private PollenSourceCheck() {}

  static void check(PollenSourceSeen source, Problems into) {
    OutlineCheck.check("outline", source.getOutline(), into);
    if (source.getEndedOn() != null && source.getFirstSeenOn().isAfter(source.getEndedOn())) {
      into.add(
          "endedOn",
          source.getEndedOn(),
          "not before firstSeenOn (" + source.getFirstSeenOn() + ")",
          "Check both days; they may be exchanged");
    }
    if (source.getFirstSeenOn().getYear() > source.getCropYear()) {
      into.add(
          "cropYear",
          source.getCropYear(),
          "not before the year of firstSeenOn (" + source.getFirstSeenOn() + ")",
          "Give the year in which it flowers");
    }
  }
}
