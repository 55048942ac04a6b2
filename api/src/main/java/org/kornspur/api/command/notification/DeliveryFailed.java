package org.kornspur.api.command.notification;

import org.kornspur.contract.NotificationFailure;

/** An attempt to send a message failed. */
final class DeliveryFailed extends Exception {
  private static final int LONGEST_DETAIL = 200;

  private final NotificationFailure why;
  private final String detail;

  /**
   * @param detail what the other side or the program said; may be null
   */
  DeliveryFailed(NotificationFailure why, String detail) {
    super(why + " " + detail);
    this.why = why;
    String line = detail == null ? "" : detail.replaceAll("\\s+", " ").strip();
    this.detail = line.substring(0, Math.min(LONGEST_DETAIL, line.length()));
  }

  NotificationFailure why() {
    return why;
  }

  String detail() {
    return detail;
  }
}
