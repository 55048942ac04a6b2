package org.kornspur.ingest.intake;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.kornspur.contract.LotMass;
import org.kornspur.ingest.problem.ListProblem;

/** Within one operation each lot stands once: twice is a double entry, or a lot made of itself. */
final class LotsOnce {

  private final Map<String, String> firstSeenAt = new HashMap<>();
  private final Problems into;

  LotsOnce(Problems into) {
    this.into = into;
  }

  /** Notes a single lot. */
  LotsOnce lot(String path, String lotId) {
    String earlier = firstSeenAt.putIfAbsent(lotId, path);
    if (earlier != null) {
      into.add(path, lotId, new ListProblem.LotTwice(earlier));
    }
    return this;
  }

  /** Notes every lot of a list. */
  LotsOnce lots(String path, List<LotMass> masses) {
    for (int index = 0; index < masses.size(); index++) {
      lot(path + "[" + index + "].lotId", masses.get(index).getLotId());
    }
    return this;
  }
}
