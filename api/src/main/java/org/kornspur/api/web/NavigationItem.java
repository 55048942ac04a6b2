package org.kornspur.api.web;

import java.util.function.Function;
import org.kornspur.api.security.Permission;
import org.kornspur.api.text.FrameMessages;

/** A page that the navigation leads to. */
public enum NavigationItem {
  DESK("/desk", Permission.READ_DESK, FrameMessages::desk),
  LOTS("/lots", Permission.READ_LOTS, FrameMessages::lots),
  CROPS("/crops", Permission.READ_CROPS, FrameMessages::crops),
  BENCH("/bench", Permission.WORK_AT_BENCH, FrameMessages::bench),
  QUARANTINE("/quarantine", Permission.READ_QUARANTINE, FrameMessages::quarantine),
  FIELD_BOOK("/field-book", Permission.WORK_IN_FIELD, FrameMessages::fieldBook),
  SEASONS("/seasons", Permission.READ_SEASONS, FrameMessages::seasons),
  TRACE("/trace", Permission.READ_TRACE, FrameMessages::trace),
  HELP("/help", Permission.READ_HELP, FrameMessages::help),
  /** What no entry of the navigation leads to. */
  ELSEWHERE("", Permission.LOG_IN, messages -> "");

  private final String href;
  private final Permission needs;
  private final Function<FrameMessages, String> label;

  NavigationItem(String href, Permission needs, Function<FrameMessages, String> label) {
    this.href = href;
    this.needs = needs;
    this.label = label;
  }

  /** Its address; empty where the navigation does not lead to it. */
  public String href() {
    return href;
  }

  /** What one must be allowed to do to find anything here. */
  Permission needs() {
    return needs;
  }

  String label(FrameMessages messages) {
    return label.apply(messages);
  }
}
