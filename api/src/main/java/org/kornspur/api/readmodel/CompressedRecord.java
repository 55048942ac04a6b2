package org.kornspur.api.readmodel;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.DataInputStream;
import java.io.IOException;
import java.util.zip.Deflater;
import java.util.zip.InflaterInputStream;

/**
 * A record as it came from the topic, deflated. An index keeps a hundred thousand of them and
 * unpacks the few that a page shows.
 */
public final class CompressedRecord {
  private final int unpackedBytes;
  private final byte[] deflated;

  /** One that was packed before. */
  CompressedRecord(int unpackedBytes, byte[] deflated) {
    this.unpackedBytes = unpackedBytes;
    this.deflated = deflated;
  }

  static CompressedRecord of(byte[] bytes) {
    Deflater deflater = new Deflater(Deflater.BEST_SPEED);
    try {
      deflater.setInput(bytes);
      deflater.finish();
      ByteArrayOutputStream out = new ByteArrayOutputStream(bytes.length / 3 + 64);
      byte[] buffer = new byte[4096];
      while (!deflater.finished()) {
        out.write(buffer, 0, deflater.deflate(buffer));
      }
      return new CompressedRecord(bytes.length, out.toByteArray());
    } finally {
      deflater.end();
    }
  }

  int unpackedBytes() {
    return unpackedBytes;
  }

  /** Not to be changed. */
  byte[] deflated() {
    return deflated;
  }

  /** The record as it came. */
  public byte[] unpacked() {
    byte[] bytes = new byte[unpackedBytes];
    try (var packed =
        new DataInputStream(new InflaterInputStream(new ByteArrayInputStream(deflated)))) {
      packed.readFully(bytes);
      return bytes;
    } catch (IOException e) {
      throw new IllegalStateException("Packed bytes were damaged in memory", e);
    }
  }
}
