package org.kornspur.api.web.help;

import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;

/** The pages of the manual, in the order of the table of contents. */
public enum HelpTopic {
  START,
  PAGES,
  MAP,
  SEASONS,
  DEMO,
  GATES,
  TESTS,
  RELEASE,
  FACTS,
  FILES,
  ADVICE,
  PLAN,
  EXCHANGE,
  PRODUCER,
  ROLES,
  AUDIT,
  NOTIFICATIONS,
  PROOF,
  OPERATION,
  RUNBOOK,
  CLUSTER,
  SETTINGS,
  CHANGES;

  /** Where the manual lies. */
  public static final String ROOT = "/help";

  /** Name in addresses, and of the file. */
  public String slug() {
    return name().toLowerCase(Locale.ROOT);
  }

  /** Address of its page. */
  public String href() {
    return ROOT + "/" + slug();
  }

  static Optional<HelpTopic> of(String slug) {
    return Arrays.stream(values()).filter(topic -> topic.slug().equals(slug)).findFirst();
  }
}
