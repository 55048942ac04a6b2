package org.kornspur.ingest.intake;

import org.kornspur.contract.PollenSourceSeen;
import org.kornspur.ingest.problem.TimeProblem;

/** A source of pollen stands somewhere, and is seen before it ends. */
final class PollenSourceCheck {

  private PollenSourceCheck() {}

  static void check(PollenSourceSeen source, Problems into) {
    OutlineCheck.check("outline", source.getOutline(), into);
    if (source.getEndedOn() != null && source.getFirstSeenOn().isAfter(source.getEndedOn())) {
      into.add(
          "endedOn",
          source.getEndedOn(),
          new TimeProblem.LastBeforeFirst("firstSeenOn", source.getFirstSeenOn()));
    }
    if (source.getFirstSeenOn().getYear() > source.getCropYear()) {
      into.add(
          "cropYear",
          source.getCropYear(),
          new TimeProblem.SeenAfterCropYear(source.getFirstSeenOn()));
    }
  }
}
