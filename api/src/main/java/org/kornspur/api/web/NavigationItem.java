package org.kornspur.api.web;

import org.kornspur.api.security.Permission;

/** A page that the navigation leads to. */
public enum NavigationItem {
  FIRST_STEPS("/first-steps", Permission.SET_UP),
  DESK("/desk", Permission.READ_DESK),
  RELEASE("/release", Permission.SIGN_ACTS),
  LOTS("/lots", Permission.READ_LOTS),
  CROPS("/crops", Permission.READ_CROPS),
  MAP("/map", Permission.READ_CROPS),
  LABORATORY("/laboratory", Permission.TEST_SAMPLES),
  RECORD("/record", Permission.POST_FACTS),
  FILES("/files", Permission.POST_FACTS),
  QUARANTINE("/quarantine", Permission.READ_QUARANTINE),
  FIELD_BOOK("/field-book", Permission.WORK_IN_FIELD),
  SEASONS("/seasons", Permission.READ_SEASONS),
  PLAN("/plan", Permission.READ_PLANS),
  TRACE("/trace", Permission.READ_TRACE),
  AUDIT("/audit", Permission.AUDIT),
  PEOPLE("/people", Permission.READ_PEOPLE),
  SITE("/site", Permission.READ_SITE),
  HELP("/help", Permission.READ_HELP),
  /** What no entry of the navigation leads to. */
  ELSEWHERE("", Permission.LOG_IN);

  private final String href;
  private final Permission needs;

  NavigationItem(String href, Permission needs) {
    this.href = href;
    this.needs = needs;
  }

  /** Its address; empty where the navigation does not lead to it. */
  public String href() {
    return href;
  }

  /** What one must be allowed to do to find anything here. */
  Permission needs() {
    return needs;
  }
}
