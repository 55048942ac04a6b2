package org.kornspur.ingest.contract;

import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.Collection;
import java.util.HexFormat;
import org.apache.avro.Schema;
import org.apache.avro.generic.IndexedRecord;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.contract.FactHeader;

/**
 * What a fact says, as a hash: two facts have the same fingerprint if they have the same type and
 * the same content. Fields that are null are left out, so that a fact keeps its fingerprint when
 * the contract gains an optional field. Who brought the fact is left out too: it is the same fact
 * whichever way it came.
 */
public final class Fingerprint {

  private static final String LEFT_OUT = "submission";

  private Fingerprint() {}

  /** SHA-256 over type and content, in hexadecimal. */
  public static String of(SpecificRecord fact) {
    MessageDigest digest = sha256();
    digest.update(fact.getSchema().getFullName().getBytes(StandardCharsets.UTF_8));
    addRecord(digest, fact);
    return HexFormat.of().formatHex(digest.digest());
  }

  /** SHA-256 over bytes, in hexadecimal. */
  public static String of(byte[]... parts) {
    MessageDigest digest = sha256();
    for (byte[] part : parts) {
      addBytes(digest, part);
    }
    return HexFormat.of().formatHex(digest.digest());
  }

  private static void addRecord(MessageDigest digest, IndexedRecord branch) {
    digest.update((byte) '{');
    for (Schema.Field field : branch.getSchema().getFields()) {
      Object value = branch.get(field.pos());
      if (value != null && !isLeftOut(branch, field)) {
        addBytes(digest, field.name().getBytes(StandardCharsets.UTF_8));
        addValue(digest, value);
      }
    }
    digest.update((byte) '}');
  }

  private static boolean isLeftOut(IndexedRecord branch, Schema.Field field) {
    return branch instanceof FactHeader && field.name().equals(LEFT_OUT);
  }

  private static void addValue(MessageDigest digest, Object value) {
    if (value instanceof IndexedRecord branch) {
      addRecord(digest, branch);
    } else if (value instanceof Collection<?> list) {
      digest.update((byte) '[');
      list.forEach(element -> addValue(digest, element));
      digest.update((byte) ']');
    } else {
      addBytes(digest, value.toString().getBytes(StandardCharsets.UTF_8));
    }
  }

  private static void addBytes(MessageDigest digest, byte[] bytes) {
    digest.update(ByteBuffer.allocate(Integer.BYTES).putInt(bytes.length).array());
    digest.update(bytes);
  }

  /** A digest that every Java platform has. */
  public static MessageDigest sha256() {
    try {
      return MessageDigest.getInstance("SHA-256");
    } catch (NoSuchAlgorithmException missing) {
      throw new IllegalStateException("Every Java platform has SHA-256", missing);
    }
  }
}
