package org.kornspur.ingest.intake;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.kornspur.contract.Dispatch;
import org.kornspur.ingest.problem.ListProblem;

/** A label is on one bag. */
final class DispatchCheck {

  private DispatchCheck() {}

  static void check(Dispatch dispatch, Problems into) {
    Map<String, Integer> firstSeenAt = new HashMap<>();
    List<String> labels = dispatch.getLabelNumbers();
    for (int index = 0; index < labels.size(); index++) {
      Integer earlier = firstSeenAt.putIfAbsent(labels.get(index), index);
      if (earlier != null) {
        into.add(
            "labelNumbers[" + index + "]",
            labels.get(index),
            new ListProblem.LabelTwice("labelNumbers[" + earlier + "]"));
      }
    }
  }
}
