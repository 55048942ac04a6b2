package org.kornspur.api.problem;

import java.util.List;
import org.kornspur.ingest.contract.Subject;

/** Why an answer cannot be given just now. */
public sealed interface NotReadyDetail extends Detail {
  record NotRunning() implements NotReadyDetail {}

  record MovingWork() implements NotReadyDetail {}

  record KeysUnread() implements NotReadyDetail {}

  record LagUnknown() implements NotReadyDetail {}

  record Interrupted() implements NotReadyDetail {}

  /** The broker did not take a record; the words of the fault are those of the program. */
  record NotTaken(String fault) implements NotReadyDetail {}

  /** A broker did not take a fact, and nobody thought of why. */
  record FactNotTaken() implements NotReadyDetail {}

  record InstanceSilent(String instance, String fault) implements NotReadyDetail {}

  /**
   * A dossier that is not whole.
   *
   * @param keys of the store, the first of them
   */
  record DossierUnreadable(Subject subject, List<String> keys, int further)
      implements NotReadyDetail {
    private static final int NAMED = 3;

    public static DossierUnreadable of(Subject subject, List<String> keys) {
      return new DossierUnreadable(
          subject, keys.stream().limit(NAMED).toList(), Math.max(0, keys.size() - NAMED));
    }
  }

  /** The records of a topic are not read to their end yet. */
  record StillReading(String topic) implements NotReadyDetail {}

  record NoTopic(String topic) implements NotReadyDetail {}

  record FactNotGiven(String partition, String offset, long seconds) implements NotReadyDetail {}

  record LinksNotGiven(String partition, String from, String until, int found)
      implements NotReadyDetail {}

  record RecordsNotGiven(String partition, String from) implements NotReadyDetail {}

  /** Records that are not processed yet; more facts are taken when they are. */
  record TooManyWaiting(long waiting, long most) implements NotReadyDetail {}

  /** Free space on the disk of the data folder, megabytes. */
  record DiskNearlyFull(long freeMb, long leastMb) implements NotReadyDetail {}

  record TooManyDocuments(int atOnce, int waiting) implements NotReadyDetail {}

  record TooManyStreams(int most) implements NotReadyDetail {}

  record TooManyReaders(int most) implements NotReadyDetail {}
}
