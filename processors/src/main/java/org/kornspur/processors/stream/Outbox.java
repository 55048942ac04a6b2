package org.kornspur.processors.stream;

import java.util.Arrays;
import java.util.HexFormat;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import org.apache.kafka.common.serialization.StringSerializer;
import org.apache.kafka.streams.KeyValue;
import org.apache.kafka.streams.processor.api.ProcessorContext;
import org.apache.kafka.streams.processor.api.Record;
import org.apache.kafka.streams.state.KeyValueIterator;
import org.apache.kafka.streams.state.KeyValueStore;
import org.kornspur.ingest.contract.Fingerprint;
import org.kornspur.ingest.publish.RecordSize;

/**
 * Remembers what each subject last sent, so that a letter goes out only when it is new or changed,
 * and an addressee that is no longer written to is told so.
 */
final class Outbox {
  private static final int FINGERPRINT_BYTES = 32;

  private final ProcessorContext<String, byte[]> context;
  private final KeyValueStore<String, byte[]> sent;

  Outbox(ProcessorContext<String, byte[]> context, KeyValueStore<String, byte[]> sent) {
    this.context = context;
    this.sent = sent;
  }

  /**
   * What an addressee is to hold.
   *
   * @param content the content now
   * @param whenGone what to send when there is no content any more; empty for a tombstone
   */
  record Letter(byte[] content, Optional<byte[]> whenGone) {

    /** A letter whose end is told by a tombstone, for compacted topics. */
    static Letter withTombstone(byte[] content) {
      return new Letter(content, Optional.empty());
    }
  }

  /**
   * Sends what changed.
   *
   * @param sender who sends, in whatever text form the store is kept by
   * @param sink sink that the letters go to
   * @param letters all letters that the sender wants to be held, by record key
   */
  void deliver(Object sender, String sink, SortedMap<String, Letter> letters) {
    String prefix = Keys.prefix(sender, sink);
    SortedMap<String, byte[]> earlier = earlier(prefix);
    letters.forEach((key, letter) -> sendChanged(prefix, sink, key, letter, earlier.remove(key)));
    earlier.forEach((key, memo) -> takeBack(prefix, sink, key, memo));
  }

  /**
   * Sends what changed for one addressee, and leaves the others what they hold.
   *
   * @param sender who sends, in whatever text form the store is kept by
   * @param sink sink that the letter goes to
   * @param key record key of the addressee
   * @param letter what it is to hold; empty for nothing
   */
  void deliverOne(Object sender, String sink, String key, Optional<Letter> letter) {
    String prefix = Keys.prefix(sender, sink);
    byte[] earlier = sent.get(prefix + key);
    if (letter.isPresent()) {
      sendChanged(prefix, sink, key, letter.get(), earlier);
    } else if (earlier != null) {
      takeBack(prefix, sink, key, earlier);
    }
  }

  private void sendChanged(String prefix, String sink, String key, Letter letter, byte[] earlier) {
    byte[] memo = memoOf(letter);
    if (!Arrays.equals(memo, earlier)) {
      send(sink, key, letter.content());
      sent.put(prefix + key, memo);
    }
  }

  private void takeBack(String prefix, String sink, String key, byte[] earlier) {
    send(sink, key, whenGone(earlier));
    sent.delete(prefix + key);
  }

  private SortedMap<String, byte[]> earlier(String prefix) {
    SortedMap<String, byte[]> found = new TreeMap<>();
    try (KeyValueIterator<String, byte[]> held = sent.prefixScan(prefix, new StringSerializer())) {
      while (held.hasNext()) {
        KeyValue<String, byte[]> memo = held.next();
        found.put(memo.key.substring(prefix.length()), memo.value);
      }
    }
    return found;
  }

  /** What the broker would refuse stops the whole stream; so it is the sender's fault, and said. */
  private void send(String sink, String key, byte[] value) {
    if (value != null && value.length > RecordSize.MOST_ON_ITS_WAY_BYTES) {
      throw new IllegalStateException(
          "A record of "
              + value.length
              + " bytes for "
              + key
              + " by way of "
              + sink
              + "; brokers take "
              + RecordSize.MOST_ON_ITS_WAY_BYTES);
    }
    context.forward(new Record<>(key, value, context.currentSystemTimeMs()), sink);
  }

  private static byte[] memoOf(Letter letter) {
    byte[] fingerprint = HexFormat.of().parseHex(Fingerprint.of(letter.content()));
    byte[] whenGone = letter.whenGone().orElse(new byte[0]);
    byte[] memo = Arrays.copyOf(fingerprint, FINGERPRINT_BYTES + whenGone.length);
    System.arraycopy(whenGone, 0, memo, FINGERPRINT_BYTES, whenGone.length);
    return memo;
  }

  private static byte[] whenGone(byte[] memo) {
    return memo.length == FINGERPRINT_BYTES
        ? null
        : Arrays.copyOfRange(memo, FINGERPRINT_BYTES, memo.length);
  }
}
