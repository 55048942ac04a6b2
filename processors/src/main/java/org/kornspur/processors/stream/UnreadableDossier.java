package org.kornspur.processors.stream;

import java.util.List;
import org.kornspur.ingest.contract.Subject;

/**
 * Something that a dossier holds cannot be read, so nothing may be said of its subject as if it
 * were whole.
 */
public final class UnreadableDossier extends RuntimeException {
  private static final long serialVersionUID = 1L;

  UnreadableDossier(Subject subject, List<String> unreadable) {
    super("The dossier of " + subject + " cannot be read whole: " + sentence(unreadable));
  }

  /**
   * What is wrong and what to do, in a sentence.
   *
   * @param unreadable what cannot be read, by the keys of the store
   */
  static String sentence(List<String> unreadable) {
    return "what is kept under "
        + String.join(", ", unreadable.stream().limit(3).toList())
        + (unreadable.size() > 3 ? " and " + (unreadable.size() - 3) + " more" : "")
        + " cannot be read. See that the schema registry holds all schemas; else stop the program,"
        + " move the folder 'streams' of its data away, and start it: it reads the state again"
        + " from the log.";
  }
}
