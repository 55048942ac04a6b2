package org.kornspur.processors.stream;

import java.util.Arrays;
import java.util.HexFormat;
import java.util.Optional;
import java.util.SortedMap;
import org.apache.kafka.streams.processor.api.ProcessorContext;
import org.apache.kafka.streams.processor.api.Record;
import org.apache.kafka.streams.state.KeyValueStore;
import org.kornspur.ingest.contract.Fingerprint;
import org.kornspur.ingest.publish.RecordSize;

/**
 * Remembers what each subject last sent, so that a letter goes out only when it is new or changed,
 * and an addressee that is no longer written to is told so. What it remembers of a letter is the
 * fingerprint of its bytes, and the bytes of what to send at its end.
 *
 * @param <R> what the sender sends, of all kinds
 */
final class Outbox<R> {
  private static final int FINGERPRINT_BYTES = 32;

  private final ProcessorContext<String, R> context;
  private final KeyValueStore<String, byte[]> sent;

  Outbox(ProcessorContext<String, R> context, KeyValueStore<String, byte[]> sent) {
    this.context = context;
    this.sent = sent;
  }

  /**
   * What an addressee is to hold.
   *
   * @param content the content now
   * @param whenGone what to send when there is no content any more; empty for a tombstone
   */
  record Letter<V>(V content, Optional<V> whenGone) {

    /** A letter whose end is told by a tombstone, for compacted topics. */
    static <V> Letter<V> withTombstone(V content) {
      return new Letter<>(content, Optional.empty());
    }
  }

  /**
   * Sends what changed.
   *
   * @param before what the sender sent before; it notes what is sent now
   * @param letters all letters that the sender wants to be held, by record key
   */
  <V extends R> void deliver(
      LastSentReports before, Route<V> route, SortedMap<String, Letter<V>> letters) {
    SortedMap<String, byte[]> earlier = before.on(route.sink());
    letters.forEach(
        (key, letter) ->
            sendChanged(route, key, letter, earlier.remove(key))
                .ifPresent(memo -> before.put(route.sink(), key, memo)));
    earlier.forEach(
        (key, memo) -> {
          takeBack(route, key, memo);
          before.remove(route.sink(), key);
        });
  }

  /** Sends one letter besides those that were sent before, if it is not among them. */
  <V extends R> void deliverFurther(
      LastSentReports before, Route<V> route, String key, Letter<V> letter) {
    sendChanged(route, key, letter, before.on(route.sink()).get(key))
        .ifPresent(memo -> before.put(route.sink(), key, memo));
  }

  /**
   * Sends what changed for one addressee of very many, and leaves the others what they hold.
   *
   * @param sender who sends, in whatever text form the store is kept by
   * @param key record key of the addressee
   * @param letter what it is to hold; empty for nothing
   */
  <V extends R> void deliverOne(
      Object sender, Route<V> route, String key, Optional<Letter<V>> letter) {
    String prefix = Keys.prefix(sender, route.sink());
    byte[] earlier = sent.get(prefix + key);
    if (letter.isPresent()) {
      sendChanged(route, key, letter.get(), earlier)
          .ifPresent(memo -> sent.put(prefix + key, memo));
    } else if (earlier != null) {
      takeBack(route, key, earlier);
      sent.delete(prefix + key);
    }
  }

  /** What to remember of a letter that was sent; empty where it is the one that was sent before. */
  private <V extends R> Optional<byte[]> sendChanged(
      Route<V> route, String key, Letter<V> letter, byte[] earlier) {
    byte[] bytes = route.write(letter.content());
    byte[] fingerprint = HexFormat.of().parseHex(Fingerprint.of(bytes));
    if (earlier != null && isOf(fingerprint, earlier)) {
      return Optional.empty();
    }
    requireRoom(bytes.length, route, key);
    send(route, key, letter.content());
    return Optional.of(memo(fingerprint, letter.whenGone().map(route::write).orElse(new byte[0])));
  }

  private static boolean isOf(byte[] fingerprint, byte[] memo) {
    return Arrays.equals(
        fingerprint, 0, FINGERPRINT_BYTES, memo, 0, Math.min(FINGERPRINT_BYTES, memo.length));
  }

  private <V extends R> void takeBack(Route<V> route, String key, byte[] earlier) {
    boolean isTombstone = earlier.length == FINGERPRINT_BYTES;
    send(
        route,
        key,
        isTombstone
            ? null
            : route.readGone(Arrays.copyOfRange(earlier, FINGERPRINT_BYTES, earlier.length)));
  }

  private <V extends R> void send(Route<V> route, String key, V value) {
    context.forward(new Record<>(key, value, context.currentSystemTimeMs()), route.sink());
  }

  /** What the broker would refuse stops the whole stream; so it is the sender's fault, and said. */
  private static void requireRoom(int bytes, Route<?> route, String key) {
    if (bytes > RecordSize.MOST_ON_ITS_WAY_BYTES) {
      throw new IllegalStateException(
          "A record of %s bytes for %s by way of %s; brokers take %s"
              .formatted(bytes, key, route.sink(), RecordSize.MOST_ON_ITS_WAY_BYTES));
    }
  }

  private static byte[] memo(byte[] fingerprint, byte[] whenGone) {
    byte[] memo = Arrays.copyOf(fingerprint, FINGERPRINT_BYTES + whenGone.length);
    System.arraycopy(whenGone, 0, memo, FINGERPRINT_BYTES, whenGone.length);
    return memo;
  }
}
