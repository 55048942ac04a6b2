package org.kornspur.ingest.registry;

import java.util.List;

/** A schema was refused because it and an earlier version cannot read each other's data. */
public final class IncompatibleSchema extends RegistryException {

  private final String subject;
  private final transient List<String> messages;

  /**
   * @param messages what does not fit, one difference each, in the registry's words
   */
  public IncompatibleSchema(String subject, List<String> messages) {
    super(
        ("The schema for subject %s does not fit the versions before it: %s. Add fields with "
                + "a default only, and take none away that has no default")
            .formatted(subject, String.join("; ", messages)),
        null);
    this.subject = subject;
    this.messages = List.copyOf(messages);
  }

  public String subject() {
    return subject;
  }

  /** What does not fit, one difference each. */
  public List<String> messages() {
    return messages;
  }
}
