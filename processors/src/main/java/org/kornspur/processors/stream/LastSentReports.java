package org.kornspur.processors.stream;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.DataInputStream;
import java.io.DataOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.HashSet;
import java.util.Map;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;
import org.apache.kafka.streams.KeyValue;
import org.apache.kafka.streams.state.KeyValueStore;

/**
 * What one sender last sent, as the store of an outbox holds it, with what else lies there of the
 * sender: read in one go, and written once when all is sent.
 *
 * <p>The letters of most senders are few and lie in one record, the page. Who writes to very many,
 * as a hybrid does, has a record for each letter, so that one more costs one more. So had all
 * senders in earlier releases; whoever sends anew comes to a page then.
 */
final class LastSentReports {
  /** More than nearly every crop or lot sends. */
  static final int MOST_ON_A_PAGE = 40;

  private static final String PAGE = "sent";

  private final KeyValueStore<String, byte[]> store;
  private final String prefix;
  private final int mostOnAPage;
  private final SortedMap<String, byte[]> letters = new TreeMap<>();
  private final SortedMap<String, byte[]> others = new TreeMap<>();
  private final Set<String> single = new HashSet<>();
  private final Set<String> changed = new HashSet<>();
  private boolean hasPage;

  /**
   * @param others what else lies under a sender, and is no letter
   * @param mostOnAPage of more letters each has a record of its own
   */
  LastSentReports(
      KeyValueStore<String, byte[]> store, Object sender, Set<String> others, int mostOnAPage) {
    this.store = store;
    this.mostOnAPage = mostOnAPage;
    prefix = Keys.prefix(sender);
    for (KeyValue<String, byte[]> held : Keys.scan(store, prefix)) {
      String key = held.key.substring(prefix.length());
      String kind = key.substring(0, Math.max(0, key.indexOf(Keys.BAR)));
      if (kind.equals(PAGE)) {
        hasPage = true;
        letters.putAll(read(held.value));
      } else if (others.contains(kind)) {
        this.others.put(held.key, held.value);
      } else {
        letters.put(key, held.value);
        single.add(key);
      }
    }
  }

  /** The letters on a route, by the key of the addressee. */
  SortedMap<String, byte[]> on(String sink) {
    String route = Keys.prefix(sink);
    SortedMap<String, byte[]> found = new TreeMap<>();
    for (Map.Entry<String, byte[]> letter : letters.tailMap(route).entrySet()) {
      if (!letter.getKey().startsWith(route)) {
        break;
      }
      found.put(letter.getKey().substring(route.length()), letter.getValue());
    }
    return found;
  }

  /** What else lies in the store of this sender, by whole key. */
  SortedMap<String, byte[]> others() {
    return others;
  }

  void put(String sink, String key, byte[] memo) {
    letters.put(Keys.of(sink, key), memo);
    changed.add(Keys.of(sink, key));
  }

  void remove(String sink, String key) {
    letters.remove(Keys.of(sink, key));
    changed.add(Keys.of(sink, key));
  }

  /** Writes what changed. */
  void keep() {
    if (changed.isEmpty()) {
      return;
    }
    boolean isPage = !letters.isEmpty() && letters.size() <= mostOnAPage;
    if (isPage) {
      store.put(page(), write(letters));
      single.forEach(key -> store.delete(prefix + key));
      return;
    }
    if (hasPage) {
      changed.addAll(letters.keySet());
      store.delete(page());
    }
    for (String key : changed) {
      byte[] memo = letters.get(key);
      if (memo != null) {
        store.put(prefix + key, memo);
      } else if (single.contains(key)) {
        store.delete(prefix + key);
      }
    }
  }

  private String page() {
    return prefix + Keys.prefix(PAGE);
  }

  private static byte[] write(SortedMap<String, byte[]> letters) {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try (DataOutputStream out = new DataOutputStream(bytes)) {
      for (Map.Entry<String, byte[]> letter : letters.entrySet()) {
        out.writeUTF(letter.getKey());
        out.writeShort(letter.getValue().length);
        out.write(letter.getValue());
      }
    } catch (IOException unwritable) {
      throw new UncheckedIOException(unwritable);
    }
    return bytes.toByteArray();
  }

  /**
   * What cannot be read counts as not sent, so it is sent again: a dossier that could not be judged
   * for it would keep an earlier standing.
   */
  private static Map<String, byte[]> read(byte[] page) {
    Map<String, byte[]> letters = new TreeMap<>();
    try (DataInputStream in = new DataInputStream(new ByteArrayInputStream(page))) {
      while (in.available() > 0) {
        String key = in.readUTF();
        letters.put(key, in.readNBytes(in.readUnsignedShort()));
      }
    } catch (IOException unreadable) {
      return letters;
    }
    return letters;
  }
}
