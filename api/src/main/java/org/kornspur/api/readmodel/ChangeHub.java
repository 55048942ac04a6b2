package org.kornspur.api.readmodel;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import java.util.Optional;

/**
 * Passes each change of a standing to every listener, and keeps the latest so that a listener who
 * was away can go on where it stopped.
 *
 * <p>All is bounded: so many changes are kept, and a listener who cannot follow is told to go.
 */
public final class ChangeHub {

  /** A change with the place where it stands in the topic. */
  public record Event(
      int partition, long offset, TopicPositions positions, StandingChange change) {}

  /** Somebody who wants to hear of changes. */
  public interface Listener {

    /**
     * Takes a change without waiting.
     *
     * @return false where it cannot take more; the listener is then dropped
     */
    boolean offer(Event event);

    /** Earlier changes are no longer kept; all lists must be loaded again. */
    void mustReload();

    /** Nothing more comes. */
    void end();
  }

  private final int kept;
  private final Deque<Event> latest = new ArrayDeque<>();
  private final List<Listener> listeners = new ArrayList<>();
  private TopicPositions read = TopicPositions.none();
  private TopicPositions forgotten = TopicPositions.none();
  private boolean closed;

  /**
   * @param kept how many changes are kept for listeners who were away
   */
  public ChangeHub(int kept) {
    this.kept = kept;
  }

  /**
   * Passes on a change that stands at this place in the topic. What is read once more, because a
   * feed reads its topic again, was passed on before.
   */
  public synchronized void publish(int partition, long offset, StandingChange change) {
    if (read.includes(partition, offset)) {
      return;
    }
    read = read.after(partition, offset);
    Event event = new Event(partition, offset, read, change);
    latest.addLast(event);
    if (latest.size() > kept) {
      Event oldest = latest.removeFirst();
      forgotten = forgotten.after(oldest.partition(), oldest.offset());
    }
    listeners.removeIf(listener -> !listener.offer(event));
  }

  /** What was read up to here, in an earlier run, is not kept: who stopped before must reload. */
  synchronized void beginAfter(TopicPositions earlier) {
    read = earlier;
    forgotten = earlier;
    latest.clear();
  }

  /**
   * Adds a listener.
   *
   * @param lastSeen where it stopped; what came after is given first. Empty to begin now
   */
  public synchronized void add(Listener listener, Optional<TopicPositions> lastSeen) {
    if (closed) {
      listener.end();
      return;
    }
    boolean follows = lastSeen.map(seen -> resume(listener, seen)).orElse(true);
    if (follows) {
      listeners.add(listener);
    }
  }

  public synchronized void remove(Listener listener) {
    listeners.remove(listener);
  }

  /** Lets all listeners go, and whoever comes from now on. */
  synchronized void close() {
    closed = true;
    listeners.forEach(Listener::end);
    listeners.clear();
  }

  public synchronized int listeners() {
    return listeners.size();
  }

  private boolean resume(Listener listener, TopicPositions seen) {
    boolean reachesBack =
        forgotten.lastSeen().entrySet().stream()
            .allMatch(gone -> seen.includes(gone.getKey(), gone.getValue()));
    if (!reachesBack) {
      listener.mustReload();
      return true;
    }
    return latest.stream()
        .filter(event -> !seen.includes(event.partition(), event.offset()))
        .allMatch(listener::offer);
  }
}
