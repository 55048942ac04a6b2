package org.kornspur.api.command.fact;

/**
 * One fact of a request, not read yet.
 *
 * @param place where it stands
 * @param utf8 its text
 */
public record Item(Place place, Text utf8) {

  /** Where a fact stands in a request. */
  public sealed interface Place {

    /** The only fact of the request. */
    record Alone() implements Place {}

    /** A line of NDJSON, from 1. */
    record Line(int number) implements Place {}

    /** An element of a list, from 0. */
    record Index(int number) implements Place {}

    /** For a person who looks for it later. */
    default String words() {
      if (this instanceof Line line) {
        return ", line " + line.number();
      }
      if (this instanceof Index index) {
        return ", element " + index.number();
      }
      return "";
    }
  }

  /** Bytes that nobody changes. */
  public static final class Text {
    private final byte[] bytes;

    Text(byte[] bytes) {
      this.bytes = bytes;
    }

    byte[] bytes() {
      return bytes;
    }
  }
}
