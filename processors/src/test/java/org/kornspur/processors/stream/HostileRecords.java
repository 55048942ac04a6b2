package org.kornspur.processors.stream;

import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Random;
import org.apache.kafka.common.header.Headers;
import org.apache.kafka.common.header.internals.RecordHeaders;

/** Records that nobody who means well writes, from a seed: keys, values, times and headers. */
public final class HostileRecords {
  private static final List<String> KEYS =
      List.of(
          "",
          "lot:L1",
          "lot:L2",
          "crop:C1",
          "LOT:L1",
          "lot:L1|f1",
          "lot:",
          ":",
          "cell:2024:1:1",
          "f1",
          "up|lot:L1|crop:C1|f3",
          "down|crop:C1|lot:L1|f3",
          "|||",
          "x".repeat(5_000));
  private static final List<String> TEXTS =
      List.of(
          "",
          "null",
          "{}",
          "[]",
          "\"lot\"",
          "{\"sender\":\"lot:P1\"}",
          "{\"sender\":null,\"report\":null}",
          "{\"sender\":\"lot:P1\",\"report\":{\"kind\":\"parent\"}}",
          "{\"sender\":\"lot:P1\",\"report\":{\"kind\":\"no such\",\"parent\":7}}",
          "{\"sender\":\"cell:2024:1:1\",\"report\":{\"kind\":\"ground\",\"cell\":\"cell:2024:1:1\","
              + "\"receiver\":\"crop:C1\",\"neighbours\":[null]}}",
          "{\"subject\":\"crop:C1\",\"plot\":{}}",
          "{\"subject\":\"no subject\"}",
          "{\"supersededFactId\":\"f1\",\"byFactId\":null,\"reason\":null}",
          "{\"supersededFactId\":\"f9\",\"byFactId\":\"a|b\",\"reason\":\"\"}",
          "{\"subject\":\"kornspur.facts-x\",\"version\":1,\"id\":2147483647,\"schema\":\"int\"}",
          "[".repeat(20_000));
  private static final long[] TIMES = {
    -1, Long.MIN_VALUE, Long.MAX_VALUE, 0, 1, 600_000_000_000L, 4_102_444_800_000L
  };

  private final Random random;
  private final List<byte[]> seeds;

  /**
   * @param seeds values that mean something, to be harmed
   */
  public HostileRecords(Random random, List<byte[]> seeds) {
    this.random = random;
    this.seeds = List.copyOf(seeds);
  }

  /** One of them. */
  public record Hostile(byte[] key, byte[] value, long timestamp, Headers headers) {}

  /** The next one. */
  public Hostile next() {
    return new Hostile(key(), value(), TIMES[random.nextInt(TIMES.length)], headers());
  }

  private byte[] key() {
    return switch (random.nextInt(6)) {
      case 0 -> null;
      case 1 -> bytes(random.nextInt(40));
      default -> utf8(KEYS.get(random.nextInt(KEYS.size())));
    };
  }

  private byte[] value() {
    return switch (random.nextInt(8)) {
      case 0 -> null;
      case 1 -> bytes(random.nextInt(300));
      case 2 -> harmed(seeds.get(random.nextInt(seeds.size())));
      case 3 -> message(1, utf8("f1"), harmed(seeds.get(random.nextInt(seeds.size()))));
      case 4 -> message(random.nextInt(4), bytes(random.nextInt(20)), bytes(random.nextInt(80)));
      default -> utf8(TEXTS.get(random.nextInt(TEXTS.size())));
    };
  }

  private Headers headers() {
    RecordHeaders headers = new RecordHeaders();
    for (int i = random.nextInt(4); i > 0; i--) {
      headers.add(i == 1 ? "" : "h".repeat(i * 200), i == 2 ? null : bytes(random.nextInt(2_000)));
    }
    return headers;
  }

  private byte[] harmed(byte[] whole) {
    byte[] harmed = whole.clone();
    for (int i = random.nextInt(4); i >= 0; i--) {
      harmed[random.nextInt(harmed.length)] = (byte) random.nextInt();
    }
    return random.nextBoolean() ? harmed : java.util.Arrays.copyOf(harmed, harmed.length / 2);
  }

  /** As the intake writes to a dossier: a kind, a fact id with its length, the rest. */
  private static byte[] message(int kind, byte[] factId, byte[] rest) {
    return java.nio.ByteBuffer.allocate(3 + factId.length + rest.length)
        .put((byte) kind)
        .putShort((short) factId.length)
        .put(factId)
        .put(rest)
        .array();
  }

  private byte[] bytes(int length) {
    byte[] bytes = new byte[length];
    random.nextBytes(bytes);
    return bytes;
  }

  private static byte[] utf8(String text) {
    return text.getBytes(StandardCharsets.UTF_8);
  }
}
