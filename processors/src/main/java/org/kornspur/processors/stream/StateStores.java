package org.kornspur.processors.stream;

import java.util.Map;
import java.util.function.Function;
import org.apache.kafka.common.serialization.Serde;
import org.apache.kafka.common.serialization.Serdes;
import org.apache.kafka.streams.state.KeyValueBytesStoreSupplier;
import org.apache.kafka.streams.state.KeyValueStore;
import org.apache.kafka.streams.state.StoreBuilder;
import org.apache.kafka.streams.state.Stores;

/** Every state store, by name, and how each is built. */
public final class StateStores {
  /** Fact id to what is known of that id. */
  public static final String FACT_REGISTER = "fact-register";

  /** Subject and fact id to the fact in wire format. */
  public static final String DOSSIER_FACTS = "dossier-facts";

  /** Subject, superseded fact and superseding fact to the reason. */
  public static final String DOSSIER_REVOCATIONS = "dossier-revocations";

  /** Receiver and sender to the sender's latest report. */
  public static final String DOSSIER_REPORTS = "dossier-reports";

  /** What a dossier last sent out, so that only changes go out again. */
  public static final String DOSSIER_OUTBOX = "dossier-outbox";

  /** Subjects into whose dossier something was filed since it was judged. */
  public static final String DOSSIER_REMINDERS = "dossier-reminders";

  /** Cell and subject to the plot that lies in its reach. */
  public static final String CELL_PLOTS = "cell-plots";

  /** Cell and receiver to the neighbours last reported. */
  public static final String CELL_OUTBOX = "cell-outbox";

  /** The whole pedigree, on every instance. */
  public static final String PEDIGREE = "pedigree";

  /** Where the hash chain of the partition stands. */
  public static final String CHAIN_HEADS = "chain-heads";

  /** Fact id and number in the chain to the place of the record. */
  public static final String CHAIN_INDEX = "chain-index";

  private final Function<String, KeyValueBytesStoreSupplier> suppliers;

  private StateStores(Function<String, KeyValueBytesStoreSupplier> suppliers) {
    this.suppliers = suppliers;
  }

  /** Stores on disk, in the state directory. */
  public static StateStores onDisk() {
    return new StateStores(Stores::persistentKeyValueStore);
  }

  /**
   * These stores, but with the pedigree in memory.
   *
   * <p>On disk, four fifths of a trace are RocksDB's opening of an iterator for each ancestor; in
   * memory a trace takes about a third of the time ({@code TraceBenchmark}). The price: some 400
   * bytes of Java heap an edge with short ids, so 400 MB for a million edges, on every instance;
   * and the whole topic of edges is read again at each start, where the store on disk goes on from
   * its checkpoint.
   */
  public StateStores withPedigreeInMemory() {
    return new StateStores(
        name -> name.equals(PEDIGREE) ? Stores.inMemoryKeyValueStore(name) : suppliers.apply(name));
  }

  /** Stores in memory, for tests that build many topologies. */
  public static StateStores inMemory() {
    return new StateStores(Stores::inMemoryKeyValueStore);
  }

  /** A logged store with text keys and no cache: every revision is evidence. */
  <V> StoreBuilder<KeyValueStore<String, V>> logged(String name, Serde<V> values) {
    return store(name, values).withLoggingEnabled(Map.of()).withCachingDisabled();
  }

  /**
   * A logged store of which each key goes to its log once a commit: for what changes often, and of
   * which only the latest is wanted.
   */
  <V> StoreBuilder<KeyValueStore<String, V>> loggedOnceACommit(String name, Serde<V> values) {
    return store(name, values).withLoggingEnabled(Map.of()).withCachingEnabled();
  }

  /** A store fed from a compacted topic that is its own log. */
  <V> StoreBuilder<KeyValueStore<String, V>> global(String name, Serde<V> values) {
    return store(name, values).withLoggingDisabled().withCachingDisabled();
  }

  private <V> StoreBuilder<KeyValueStore<String, V>> store(String name, Serde<V> values) {
    return Stores.keyValueStoreBuilder(suppliers.apply(name), Serdes.String(), values);
  }
}
