package org.kornspur.api.page;

import java.util.function.Function;
import org.kornspur.api.access.Action;

/** A page that the navigation leads to. */
public enum Room {
  DESK("/desk", Action.READ_LOG, FrameMessages::desk),
  LOTS("/lots", Action.READ_LOTS, FrameMessages::lots),
  CROPS("/crops", Action.READ_CROPS, FrameMessages::crops),
  BENCH("/bench", Action.WORK_AT_BENCH, FrameMessages::bench),
  QUARANTINE("/quarantine", Action.READ_QUARANTINE, FrameMessages::quarantine),
  FIELD_BOOK("/field-book", Action.POST_POLLEN_SOURCES, FrameMessages::fieldBook),
  SEASONS("/seasons", Action.ASK_ADVICE, FrameMessages::seasons),
  TRACE("/trace", Action.READ_TRACE, FrameMessages::trace),
  /** What no entry of the navigation leads to. */
  ELSEWHERE("", Action.LOG_IN, messages -> "");

  private final String href;
  private final Action needs;
  private final Function<FrameMessages, String> label;

  Room(String href, Action needs, Function<FrameMessages, String> label) {
    this.href = href;
    this.needs = needs;
    this.label = label;
  }

  /** Its address; empty where the navigation does not lead to it. */
  public String href() {
    return href;
  }

  /** What one must be allowed to do to find anything here. */
  Action needs() {
    return needs;
  }

  String label(FrameMessages messages) {
    return label.apply(messages);
  }
}
