package org.kornspur.ingest.seal;

import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.util.Arrays;
import java.util.HexFormat;
import org.kornspur.ingest.contract.Fingerprint;

/** 32 bytes of SHA-256. Immutable; equal where the bytes are. */
public final class Hash implements Comparable<Hash> {

  /** Length of a hash, in bytes. */
  public static final int BYTES = 32;

  private final byte[] bytes;

  private Hash(byte[] bytes) {
    this.bytes = bytes;
  }

  /**
   * A hash from its bytes.
   *
   * @throws IllegalArgumentException if they are not {@value #BYTES}
   */
  public static Hash of(byte[] bytes) {
    if (bytes.length != BYTES) {
      throw new IllegalArgumentException(
          "A SHA-256 hash has " + BYTES + " bytes; these are " + bytes.length);
    }
    return new Hash(bytes.clone());
  }

  /** The hash that stands next in a buffer. */
  public static Hash read(ByteBuffer from) {
    byte[] hash = new byte[BYTES];
    from.get(hash);
    return new Hash(hash);
  }

  /**
   * A hash from its hexadecimal form.
   *
   * @throws IllegalArgumentException if that is not {@value #BYTES} bytes
   */
  public static Hash parse(String hex) {
    return of(HexFormat.of().parseHex(hex));
  }

  /**
   * A hash in the making. What is hashed begins with the name of its use and a zero byte, so that a
   * hash of one use can never stand for one of another.
   */
  public static Maker in(String use) {
    return new Maker(use);
  }

  public byte[] bytes() {
    return bytes.clone();
  }

  @Override
  public int compareTo(Hash other) {
    return Arrays.compareUnsigned(bytes, other.bytes);
  }

  @Override
  public boolean equals(Object other) {
    return other instanceof Hash hash && Arrays.equals(bytes, hash.bytes);
  }

  @Override
  public int hashCode() {
    return Arrays.hashCode(bytes);
  }

  /** In hexadecimal. */
  @Override
  public String toString() {
    return HexFormat.of().formatHex(bytes);
  }

  /**
   * Takes the parts of what is hashed, in order. Numbers go in with the high byte first; byte
   * strings go in after their length, and absent ones as the length -1, so that no two lists of
   * parts give the same bytes.
   */
  public static final class Maker {
    private final MessageDigest digest = Fingerprint.sha256();

    private Maker(String use) {
      digest.update(use.getBytes(StandardCharsets.US_ASCII));
      digest.update((byte) 0);
    }

    /** Adds a number of 32 bits. */
    public Maker add(int number) {
      digest.update(ByteBuffer.allocate(Integer.BYTES).putInt(number).array());
      return this;
    }

    /** Adds a number of 64 bits. */
    public Maker add(long number) {
      digest.update(ByteBuffer.allocate(Long.BYTES).putLong(number).array());
      return this;
    }

    /** Adds the bytes of another hash, without a length, as they are always {@value #BYTES}. */
    public Maker add(Hash hash) {
      digest.update(hash.bytes);
      return this;
    }

    /** Adds text, as UTF-8. */
    public Maker add(String text) {
      return add(text.getBytes(StandardCharsets.UTF_8));
    }

    /** Adds bytes; null is not the same as none. */
    public Maker add(byte[] part) {
      if (part == null) {
        return add(-1);
      }
      add(part.length);
      digest.update(part);
      return this;
    }

    /** The hash of all that was added. */
    public Hash done() {
      return new Hash(digest.digest());
    }
  }
}
