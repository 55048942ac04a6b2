package org.kornspur.ingest.intake;

import java.util.Objects;
import java.util.stream.Stream;
import org.kornspur.contract.OtherSeedDetermination;
import org.kornspur.ingest.problem.CountProblem;

/** A determination counts at least one kind of seed. */
final class OtherSeedCheck {

  private OtherSeedCheck() {}

  static void check(OtherSeedDetermination determination, Problems into) {
    boolean nothingCounted =
        Stream.of(
                determination.getOtherCereals(),
                determination.getOtherPlants(),
                determination.getRaphanusAndAgrostemma(),
                determination.getWildOats(),
                determination.getLoliumTemulentum(),
                determination.getErgotBodies())
            .allMatch(Objects::isNull);
    if (nothingCounted) {
      into.add("otherCereals", null, new CountProblem.NothingCounted());
    }
  }
}
