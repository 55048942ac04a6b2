package org.kornspur.api.page;

import java.util.function.Function;

/** A page that the navigation leads to. */
public enum Room {
  DESK("/desk", FrameMessages::desk),
  LOTS("/lots", FrameMessages::lots),
  CROPS("/crops", FrameMessages::crops),
  QUARANTINE("/quarantine", FrameMessages::quarantine),
  FIELD_BOOK("/field-book", FrameMessages::fieldBook),
  SEASONS("/seasons", FrameMessages::seasons),
  /** What no entry of the navigation leads to. */
  ELSEWHERE("", messages -> "");

  private final String href;
  private final Function<FrameMessages, String> label;

  Room(String href, Function<FrameMessages, String> label) {
    this.href = href;
    this.label = label;
  }

  /** Its address; empty where the navigation does not lead to it. */
  public String href() {
    return href;
  }

  String label(FrameMessages messages) {
    return label.apply(messages);
  }
}
