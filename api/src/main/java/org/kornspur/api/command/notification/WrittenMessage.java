package org.kornspur.api.command.notification;

import java.time.Instant;
import java.util.List;

/**
 * A message as one person reads it.
 *
 * @param messageId the same at each attempt, so that a receiver can drop repeats
 * @param language its tag
 * @param title one line
 * @param lines what it tells of
 * @param more further items, which it only counts; 0 where there are none
 * @param moreText the same in words; empty where there are none
 * @param caution that it is no proof and no release
 * @param settings address of the page where the person chose
 */
record WrittenMessage(
    String messageId,
    Instant madeAt,
    String language,
    String title,
    List<Line> lines,
    int more,
    String moreText,
    String caution,
    String settings) {

  /** One item in words, with the address of its page. */
  record Line(String kind, String text, String link) {}
}
