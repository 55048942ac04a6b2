package org.kornspur.api.web;

import org.kornspur.api.security.Permission;

/** A page that the navigation leads to, the daily ones first. */
public enum NavigationItem {
  FIRST_STEPS("/first-steps", Permission.SET_UP),
  DESK("/desk", Permission.READ_DESK),
  RELEASE("/release", Permission.SIGN_ACTS),
  LABORATORY("/laboratory", Permission.TEST_SAMPLES),
  LOTS("/lots", Permission.READ_LOTS),
  CROPS("/crops", Permission.READ_CROPS),
  RECORD("/record", Permission.POST_FACTS),
  TRACE("/trace", Permission.READ_TRACE),
  AUDIT("/audit", Permission.AUDIT),
  FIELD_BOOK("/field-book", Permission.WORK_IN_FIELD),
  MAP("/map", Permission.READ_CROPS),
  QUARANTINE("/quarantine", Permission.READ_QUARANTINE),
  FILES("/files", Permission.POST_FACTS),
  SEASONS("/seasons", Permission.READ_SEASONS),
  PLAN("/plan", Permission.READ_PLANS),
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
