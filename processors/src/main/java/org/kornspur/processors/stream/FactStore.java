package org.kornspur.processors.stream;

import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;
import org.apache.kafka.streams.processor.api.ProcessorContext;
import org.apache.kafka.streams.state.KeyValueStore;

/**
 * The register of facts in its store. Whoever corrects one fact thousands of times must not let its
 * entry grow beyond what the brokers take: an entry holds the first revocations by id, and each
 * further one has a key of its own. What the register holds does not hang on the order in which
 * they came.
 */
final class FactStore {
  private final KeyValueStore<String, RegisterEntry> store;

  FactStore(ProcessorContext<?, ?> context) {
    store = context.getStateStore(StateStores.FACT_REGISTER);
  }

  /** What is known of a fact id, if only that nothing is. */
  RegisterEntry find(String factId) {
    RegisterEntry known = store.get(factId);
    return known == null ? RegisterEntry.unknown() : known;
  }

  /** Notes that a fact came. */
  void put(String factId, RegisterEntry registered) {
    store.put(factId, registered);
  }

  /**
   * Notes that a fact is superseded, whether it came or not.
   *
   * @return subjects that hold the fact
   */
  List<String> revoke(Revocation revocation) {
    String factId = revocation.supersededFactId();
    RegisterEntry known = find(factId);
    TreeMap<String, String> revokedBy = new TreeMap<>(known.revokedBy());
    revokedBy.put(revocation.byFactId(), revocation.reason());
    while (revokedBy.size() > RegisterEntry.MOST_REVOCATIONS) {
      var last = revokedBy.pollLastEntry();
      store.put(Keys.of(factId, last.getKey()), RegisterEntry.overflow(last));
    }
    store.put(factId, known.withRevokedBy(revokedBy));
    return known.subjects();
  }

  /**
   * Every fact that supersedes this one, with its reason.
   *
   * @param known what the register has of the fact
   */
  SortedMap<String, String> revokedBy(String factId, RegisterEntry known) {
    if (!known.mayHaveMoreRevocations()) {
      return known.revokedBy();
    }
    TreeMap<String, String> all = new TreeMap<>(known.revokedBy());
    Keys.scan(store, Keys.prefix(factId)).forEach(more -> all.putAll(more.value.revokedBy()));
    return all;
  }
}
