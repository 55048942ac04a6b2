package org.kornspur.processors.stream;

import java.util.List;
import org.kornspur.ingest.contract.Subject;

/**
 * Something that a dossier holds cannot be read, so nothing may be said of its subject as if it
 * were whole.
 */
public final class UnreadableDossier extends RuntimeException {
  private final transient List<String> keys;

  UnreadableDossier(Subject subject, List<String> keys) {
    super("The dossier of " + subject + " cannot be read whole: " + keys);
    this.keys = keys;
  }

  /** What cannot be read, by the keys of the store. */
  public List<String> keys() {
    return keys;
  }
}
