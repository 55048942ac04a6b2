package org.kornspur.processors.stream;

import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;

/** Bytes of a {@link CompactForm} as they are read; whoever wrote them. */
final class CompactInput {
  private static final int MOST_BITS = 63;

  private final byte[] bytes;
  private final List<String> texts = new ArrayList<>();
  private int next;
  private int depthLeft;

  CompactInput(byte[] bytes, int from, int deepest) {
    this.bytes = bytes;
    next = from;
    depthLeft = deepest;
  }

  boolean flag() {
    byte flag = bytes[next++];
    if (flag != 0 && flag != 1) {
      throw new IllegalArgumentException("Neither yes nor no: " + flag);
    }
    return flag == 1;
  }

  long number() {
    long read = 0;
    for (int bits = 0; bits <= MOST_BITS; bits += 7) {
      byte part = bytes[next++];
      read |= (long) (part & 0x7F) << bits;
      if (part >= 0) {
        return (read >>> 1) ^ -(read & 1);
      }
    }
    throw new IllegalArgumentException("A number of too many bytes");
  }

  double fraction() {
    double read = ByteBuffer.wrap(bytes).getDouble(next);
    next += Double.BYTES;
    return read;
  }

  /** How many parts follow, of a byte at least each: a claim of more is none. */
  int size() {
    long size = number();
    if (size < 0 || size > bytes.length - next) {
      throw new IllegalArgumentException(size + " parts in " + (bytes.length - next) + " bytes");
    }
    return (int) size;
  }

  String text() {
    long number = number();
    if (number >= 0) {
      return texts.get(Math.toIntExact(number));
    }
    int length = Math.toIntExact(-1 - number);
    if (length > bytes.length - next) {
      throw new IllegalArgumentException("A text beyond the end");
    }
    String text = new String(bytes, next, length, StandardCharsets.UTF_8);
    next += length;
    texts.add(text);
    return text;
  }

  /** Goes into a record. */
  void deeper() {
    if (depthLeft-- == 0) {
      throw new IllegalArgumentException("Parts within parts, too deep");
    }
  }

  void up() {
    depthLeft++;
  }

  void requireEnd() {
    if (next != bytes.length) {
      throw new IllegalArgumentException((bytes.length - next) + " bytes behind the end");
    }
  }
}
