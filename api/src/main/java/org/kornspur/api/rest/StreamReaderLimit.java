package org.kornspur.api.rest;

import java.util.HashMap;
import java.util.Map;
import org.kornspur.api.kafka.NotReady;
import org.kornspur.api.problem.NotReadyDetail;

/** Limits how many read the live stream at once: in all, and of one person. */
final class StreamReaderLimit {
  private static final int RETRY_AFTER_SECONDS = 30;

  private final int most;
  private final int mostOfOne;
  private final Map<String, Integer> taken = new HashMap<>();
  private int all;

  StreamReaderLimit(int most, int mostOfOne) {
    this.most = most;
    this.mostOfOne = mostOfOne;
  }

  /**
   * Takes a place for a person.
   *
   * @throws NotReady if all places, or all of this person, are taken
   */
  synchronized Place take(String personId) {
    if (taken.getOrDefault(personId, 0) >= mostOfOne) {
      throw new NotReady(new NotReadyDetail.TooManyReaders(mostOfOne), RETRY_AFTER_SECONDS);
    }
    if (all >= most) {
      throw new NotReady(new NotReadyDetail.TooManyStreams(most), RETRY_AFTER_SECONDS);
    }
    taken.merge(personId, 1, Integer::sum);
    all++;
    return new Place(personId);
  }

  private synchronized void free(String personId) {
    taken.computeIfPresent(personId, (id, places) -> places == 1 ? null : places - 1);
    all--;
  }

  /** One reader's place: given back once, by whoever leaves it first. */
  final class Place {

    private enum State {
      TAKEN,
      IN_USE,
      LEFT
    }

    private final String personId;
    private State state = State.TAKEN;

    private Place(String personId) {
      this.personId = personId;
    }

    /** Begins to use the place; false where it was left before. */
    synchronized boolean use() {
      if (state != State.TAKEN) {
        return false;
      }
      state = State.IN_USE;
      return true;
    }

    /** Gives it back where nobody began to use it, as after a request that only asks for heads. */
    synchronized void leaveUnused() {
      if (state == State.TAKEN) {
        leave();
      }
    }

    synchronized void leave() {
      if (state != State.LEFT) {
        state = State.LEFT;
        free(personId);
      }
    }
  }
}
