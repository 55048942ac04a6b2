package org.kornspur.api.export;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.PriorityQueue;
import java.util.Set;
import java.util.UUID;
import java.util.concurrent.locks.ReadWriteLock;
import java.util.concurrent.locks.ReentrantReadWriteLock;
import org.kornspur.api.export.epcis.EventQuery;
import org.kornspur.ingest.contract.FactType;

/**
 * When each fact happened, was recorded and received, of what type it is and where in the log it
 * stands: some 70 bytes a fact, so that a million fit into 70 MB. A query is one pass over the
 * rows. Safe for one writer and many readers.
 *
 * <p>A row is known by the first 64 bits of its event id. Of a million facts two share them with a
 * chance of one in ten million; the later one would then not be found.
 */
final class EventIndex {
  private static final int FIRST_ROWS = 1 << 10;
  private static final int EMPTY = -1;

  /** In place of a time of receipt that the log did not keep. */
  static final long NOT_KEPT = Long.MIN_VALUE;

  private final ReadWriteLock lock = new ReentrantReadWriteLock();
  private long[] keys = new long[FIRST_ROWS];
  private long[] happenedAt = new long[FIRST_ROWS];
  private long[] recordedAt = new long[FIRST_ROWS];
  private long[] receivedAt = new long[FIRST_ROWS];
  private long[] offsets = new long[FIRST_ROWS];
  private short[] partitions = new short[FIRST_ROWS];
  private byte[] types = new byte[FIRST_ROWS];
  private int rows;
  private int[] slots = emptySlots(2 * FIRST_ROWS);

  /** Where a fact stands in the log. */
  record Place(int partition, long offset) {}

  /** Where a page of events ends: the time and key of its last. */
  record Position(long eventTimeMillis, long key) implements Comparable<Position> {
    private static final Comparator<Position> ORDER =
        Comparator.comparingLong(Position::eventTimeMillis).thenComparingLong(Position::key);

    static final Position START = new Position(Long.MIN_VALUE, Long.MIN_VALUE);

    @Override
    public int compareTo(Position other) {
      return ORDER.compare(this, other);
    }
  }

  /** A row that was found. */
  record Found(Position position, Place place) {}

  /** What a row is known by. */
  static long key(UUID eventId) {
    return eventId.getMostSignificantBits();
  }

  /** Takes a fact; the same again changes nothing, for the first one of an id counts. */
  void add(
      UUID eventId,
      FactType type,
      long happenedMillis,
      long recordedMillis,
      long receivedMillis,
      Place place) {
    lock.writeLock().lock();
    try {
      long key = key(eventId);
      if (slots[slotOf(key)] != EMPTY) {
        return;
      }
      makeRoom();
      keys[rows] = key;
      happenedAt[rows] = happenedMillis;
      recordedAt[rows] = recordedMillis;
      receivedAt[rows] = receivedMillis;
      offsets[rows] = place.offset();
      partitions[rows] = (short) place.partition();
      types[rows] = (byte) type.ordinal();
      slots[slotOf(key)] = rows;
      rows++;
    } finally {
      lock.writeLock().unlock();
    }
  }

  /** Forgets all. */
  void clear() {
    lock.writeLock().lock();
    try {
      rows = 0;
      Arrays.fill(slots, EMPTY);
    } finally {
      lock.writeLock().unlock();
    }
  }

  int size() {
    lock.readLock().lock();
    try {
      return rows;
    } finally {
      lock.readLock().unlock();
    }
  }

  /** Where the fact of an event stands. */
  Optional<Place> place(UUID eventId) {
    lock.readLock().lock();
    try {
      int row = slots[slotOf(key(eventId))];
      return row == EMPTY ? Optional.empty() : Optional.of(placeOf(row));
    } finally {
      lock.readLock().unlock();
    }
  }

  /** When the log received the fact of an event; empty where it did not keep that. */
  Optional<Instant> receivedAt(UUID eventId) {
    lock.readLock().lock();
    try {
      int row = slots[slotOf(key(eventId))];
      return row == EMPTY || receivedAt[row] == NOT_KEPT
          ? Optional.empty()
          : Optional.of(Instant.ofEpochMilli(receivedAt[row]));
    } finally {
      lock.readLock().unlock();
    }
  }

  /**
   * The first rows after a position that match, by event time.
   *
   * @param asked times; its types are given beside it
   */
  List<Found> find(Set<FactType> asked, EventQuery query, Position after, int most) {
    boolean[] wanted = new boolean[FactType.values().length];
    asked.forEach(type -> wanted[type.ordinal()] = true);
    PriorityQueue<Integer> latestFirst =
        new PriorityQueue<>(Comparator.comparing(this::position).reversed());
    lock.readLock().lock();
    try {
      for (int row = 0; row < rows; row++) {
        if (wanted[types[row]]
            && isAfter(row, after)
            && query.holdsMillis(happenedAt[row], recordedAt[row])) {
          latestFirst.add(row);
          if (latestFirst.size() > most) {
            latestFirst.poll();
          }
        }
      }
      List<Found> found = new ArrayList<>(latestFirst.size());
      while (!latestFirst.isEmpty()) {
        int row = latestFirst.poll();
        found.add(new Found(position(row), placeOf(row)));
      }
      Collections.reverse(found);
      return found;
    } finally {
      lock.readLock().unlock();
    }
  }

  private boolean isAfter(int row, Position after) {
    long time = happenedAt[row];
    return time > after.eventTimeMillis()
        || (time == after.eventTimeMillis() && keys[row] > after.key());
  }

  private Position position(int row) {
    return new Position(happenedAt[row], keys[row]);
  }

  private Place placeOf(int row) {
    return new Place(partitions[row], offsets[row]);
  }

  private void makeRoom() {
    if (rows == keys.length) {
      int larger = rows + (rows >> 1);
      keys = Arrays.copyOf(keys, larger);
      happenedAt = Arrays.copyOf(happenedAt, larger);
      recordedAt = Arrays.copyOf(recordedAt, larger);
      receivedAt = Arrays.copyOf(receivedAt, larger);
      offsets = Arrays.copyOf(offsets, larger);
      partitions = Arrays.copyOf(partitions, larger);
      types = Arrays.copyOf(types, larger);
    }
    if (2 * (rows + 1) > slots.length) {
      slots = emptySlots(2 * slots.length);
      for (int row = 0; row < rows; row++) {
        slots[slotOf(keys[row])] = row;
      }
    }
  }

  /** The slot that holds a key, or the free one where it belongs; linear probing. */
  private int slotOf(long key) {
    int mask = slots.length - 1;
    int slot = Long.hashCode(key) & mask;
    while (slots[slot] != EMPTY && keys[slots[slot]] != key) {
      slot = (slot + 1) & mask;
    }
    return slot;
  }

  private static int[] emptySlots(int size) {
    int[] slots = new int[size];
    Arrays.fill(slots, EMPTY);
    return slots;
  }
}
