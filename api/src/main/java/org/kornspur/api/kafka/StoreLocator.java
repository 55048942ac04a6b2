package org.kornspur.api.kafka;

import java.util.Optional;
import org.apache.kafka.common.serialization.StringSerializer;
import org.apache.kafka.streams.KafkaStreams;
import org.apache.kafka.streams.KeyQueryMetadata;
import org.apache.kafka.streams.StoreQueryParameters;
import org.apache.kafka.streams.errors.InvalidStateStoreException;
import org.apache.kafka.streams.state.HostInfo;
import org.apache.kafka.streams.state.QueryableStoreTypes;
import org.apache.kafka.streams.state.ReadOnlyKeyValueStore;
import org.kornspur.api.problem.NotReadyDetail;

/** Finds the instance that holds a key, and opens this instance's stores. */
record StoreLocator(KafkaStreams streams, HostInfo self) {
  private static final int RETRY_AFTER_SECONDS = 2;

  /**
   * Where a key is kept.
   *
   * @param owner the instance to ask; empty where it is this one
   * @param partition partition of the store
   */
  record Place(Optional<HostInfo> owner, int partition) {}

  Place placeOf(String storeName, String partitionKey) {
    KeyQueryMetadata metadata =
        ready(() -> streams.queryMetadataForKey(storeName, partitionKey, new StringSerializer()));
    if (metadata == null || metadata.equals(KeyQueryMetadata.NOT_AVAILABLE)) {
      throw moving();
    }
    HostInfo owner = metadata.activeHost();
    boolean here = owner.host().equals(self.host()) && owner.port() == self.port();
    return new Place(here ? Optional.empty() : Optional.of(owner), metadata.partition());
  }

  <V> ReadOnlyKeyValueStore<String, V> local(String storeName, int partition) {
    return ready(
        () ->
            streams.store(
                StoreQueryParameters.fromNameAndType(
                        storeName, QueryableStoreTypes.<String, V>keyValueStore())
                    .withPartition(partition)));
  }

  <V> ReadOnlyKeyValueStore<String, V> global(String storeName) {
    return ready(
        () ->
            streams.store(
                StoreQueryParameters.fromNameAndType(
                    storeName, QueryableStoreTypes.<String, V>keyValueStore())));
  }

  /** Reads what {@link #local} gave: a store may move away while it is read. */
  <T> T read(java.util.function.Supplier<T> question) {
    try {
      return question.get();
    } catch (InvalidStateStoreException moved) {
      throw moving();
    }
  }

  private static <T> T ready(java.util.function.Supplier<T> question) {
    try {
      return question.get();
    } catch (InvalidStateStoreException | IllegalStateException notYet) {
      throw moving();
    }
  }

  private static NotReady moving() {
    return new NotReady(new NotReadyDetail.MovingWork(), RETRY_AFTER_SECONDS);
  }
}
