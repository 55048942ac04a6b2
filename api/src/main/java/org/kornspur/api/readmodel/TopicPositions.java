package org.kornspur.api.readmodel;

import java.util.Collections;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.regex.Pattern;
import java.util.stream.Collectors;

/**
 * How far a reader has read a topic: the last offset seen in each partition. As text, pairs of
 * partition and offset: {@code 0-17.1-4.3-9}. One text says where to go on in every partition,
 * which the offset of a single record does not.
 */
public record TopicPositions(SortedMap<Integer, Long> lastSeen) {
  private static final int LONGEST_TEXT = 4000;
  private static final Pattern PAIR = Pattern.compile("(\\d{1,5})-(\\d{1,18})");

  public TopicPositions {
    lastSeen = Collections.unmodifiableSortedMap(new TreeMap<>(lastSeen));
  }

  static TopicPositions none() {
    return new TopicPositions(new TreeMap<>());
  }

  /** Reads the text form; empty where it is none. */
  public static Optional<TopicPositions> parse(String text) {
    if (text.length() > LONGEST_TEXT) {
      return Optional.empty();
    }
    SortedMap<Integer, Long> read = new TreeMap<>();
    for (String pair : text.split("\\.", -1)) {
      var match = PAIR.matcher(pair);
      if (!match.matches()) {
        return Optional.empty();
      }
      read.put(Integer.valueOf(match.group(1)), Long.valueOf(match.group(2)));
    }
    return Optional.of(new TopicPositions(read));
  }

  TopicPositions after(int partition, long offset) {
    SortedMap<Integer, Long> moved = new TreeMap<>(lastSeen);
    moved.put(partition, offset);
    return new TopicPositions(moved);
  }

  boolean includes(int partition, long offset) {
    return lastSeen.getOrDefault(partition, -1L) >= offset;
  }

  @Override
  public String toString() {
    return lastSeen.entrySet().stream()
        .map(pair -> pair.getKey() + "-" + pair.getValue())
        .collect(Collectors.joining("."));
  }
}
