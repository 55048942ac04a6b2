package org.kornspur.processors.stream;

import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.HashMap;
import java.util.Map;

/** Bytes of a {@link CompactForm} as they are written. */
final class CompactOutput {
  private static final int FIRST_ROOM_BYTES = 256;

  private final Map<String, Integer> texts = new HashMap<>();
  private byte[] bytes = new byte[FIRST_ROOM_BYTES];
  private int length;

  void put(byte one) {
    room(1);
    bytes[length++] = one;
  }

  void flag(boolean value) {
    put((byte) (value ? 1 : 0));
  }

  /** A whole number: small ones of either sign take one byte, by seven bits a byte. */
  void number(long value) {
    long left = (value << 1) ^ (value >> 63);
    while ((left & ~0x7FL) != 0) {
      put((byte) (left & 0x7F | 0x80));
      left >>>= 7;
    }
    put((byte) left);
  }

  void fraction(double value) {
    room(Double.BYTES);
    ByteBuffer.wrap(bytes).putDouble(length, value);
    length += Double.BYTES;
  }

  /** A text by its number where it was written before; a new one behind its negative length. */
  void text(String text) {
    Integer known = texts.putIfAbsent(text, texts.size());
    if (known != null) {
      number(known);
      return;
    }
    byte[] written = text.getBytes(StandardCharsets.UTF_8);
    number(-1 - written.length);
    room(written.length);
    System.arraycopy(written, 0, bytes, length, written.length);
    length += written.length;
  }

  byte[] bytes() {
    return Arrays.copyOf(bytes, length);
  }

  private void room(int more) {
    if (length + more > bytes.length) {
      bytes = Arrays.copyOf(bytes, Math.max(2 * bytes.length, length + more));
    }
  }
}
