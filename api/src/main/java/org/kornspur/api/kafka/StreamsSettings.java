package org.kornspur.api.kafka;

import java.util.Properties;
import org.apache.kafka.clients.consumer.ConsumerConfig;
import org.apache.kafka.clients.producer.ProducerConfig;
import org.apache.kafka.common.config.TopicConfig;
import org.apache.kafka.streams.StreamsConfig;
import org.kornspur.ingest.publish.RecordSize;
import org.kornspur.processors.stream.BoundedRocksDb;
import org.kornspur.processors.stream.DossierReader;
import org.kornspur.processors.stream.PoisonRecords;
import org.kornspur.processors.stream.RejudgingProgress;
import org.kornspur.processors.stream.SkippedRecords;
import org.kornspur.processors.stream.StandingDelays;

/** Settings of the streams client: exactly once, every node named, state on disk. */
final class StreamsSettings {

  /**
   * Records that are read ahead of the processors from one partition. With the largest records that
   * topics take, more would not fit into the memory of a small machine.
   */
  private static final int READ_AHEAD_RECORDS = 250;

  /** For the stores of which only the latest is wanted; the others have no cache. */
  private static final long CACHE_BYTES = 4L << 20;

  private StreamsSettings() {}

  static Properties of(
      BrokerAndRegistry brokerAndRegistry,
      EngineSettings settings,
      String advertisedAddress,
      SkippedRecords skipped,
      RejudgingProgress rejudging,
      StandingDelays delays) {
    Properties streams = new Properties();
    streams.putAll(brokerAndRegistry.clientSettings());
    streams.put(StreamsConfig.APPLICATION_ID_CONFIG, settings.applicationId());
    streams.put(StreamsConfig.PROCESSING_GUARANTEE_CONFIG, StreamsConfig.EXACTLY_ONCE_V2);
    streams.put(StreamsConfig.ENSURE_EXPLICIT_INTERNAL_RESOURCE_NAMING_CONFIG, true);
    streams.put(
        StreamsConfig.STATE_DIR_CONFIG,
        settings.dataFolder().resolve("streams").toAbsolutePath().toString());
    streams.put(StreamsConfig.STATESTORE_CACHE_MAX_BYTES_CONFIG, CACHE_BYTES);
    streams.put(StreamsConfig.ROCKSDB_CONFIG_SETTER_CLASS_CONFIG, BoundedRocksDb.class);
    streams.put(StreamsConfig.NUM_STREAM_THREADS_CONFIG, settings.streamThreads());
    streams.put(StreamsConfig.APPLICATION_SERVER_CONFIG, advertisedAddress);
    streams.put(DossierReader.TRUST_PRODUCERS, settings.trustTopicProducers());
    streams.put(StreamsConfig.COMMIT_INTERVAL_MS_CONFIG, 100);
    streams.put(
        StreamsConfig.NUM_STANDBY_REPLICAS_CONFIG,
        brokerAndRegistry.embedded() ? 0 : settings.standbyReplicas());
    streams.put(
        StreamsConfig.REPLICATION_FACTOR_CONFIG,
        brokerAndRegistry.embedded() ? 1 : (int) settings.replication());
    streams.put(
        StreamsConfig.mainConsumerPrefix(ConsumerConfig.AUTO_OFFSET_RESET_CONFIG), "earliest");
    RecordSize.ofProducer()
        .forEach((name, value) -> streams.put(StreamsConfig.producerPrefix(name), value));
    streams.put(
        StreamsConfig.topicPrefix(TopicConfig.MAX_MESSAGE_BYTES_CONFIG), RecordSize.MOST_BYTES);
    streams.put(
        StreamsConfig.topicPrefix(TopicConfig.COMPRESSION_TYPE_CONFIG),
        EarlierTopicSettings.COMPRESSION);
    streams.put(
        StreamsConfig.producerPrefix(ProducerConfig.COMPRESSION_TYPE_CONFIG),
        EarlierTopicSettings.COMPRESSION);
    streams.putAll(PoisonRecords.settings(skipped));
    streams.putAll(rejudging.settings());
    streams.putAll(delays.settings());
    streams.put(StreamsConfig.BUFFERED_RECORDS_PER_PARTITION_CONFIG, READ_AHEAD_RECORDS);
    streams.put(
        StreamsConfig.consumerPrefix(ConsumerConfig.MAX_POLL_RECORDS_CONFIG), READ_AHEAD_RECORDS);
    streams.put(
        StreamsConfig.consumerPrefix(ConsumerConfig.FETCH_MAX_BYTES_CONFIG), RecordSize.MOST_BYTES);
    if (brokerAndRegistry.embedded()) {
      // One broker refuses a batch while the transaction before it is still being marked. With one
      // request under way the producer simply asks again, rather than also sending the next batch
      // out of sequence.
      streams.put(
          StreamsConfig.producerPrefix(ProducerConfig.MAX_IN_FLIGHT_REQUESTS_PER_CONNECTION), 1);
      // There is one instance. Known by its name it takes its work up again at once after a stop or
      // a kill; by default the broker first waits for the session of the one before to end.
      streams.put(
          StreamsConfig.mainConsumerPrefix(ConsumerConfig.GROUP_INSTANCE_ID_CONFIG),
          settings.applicationId());
    }
    // A dead instance's work is taken over within seconds rather than the default 45.
    streams.put(StreamsConfig.mainConsumerPrefix(ConsumerConfig.SESSION_TIMEOUT_MS_CONFIG), 10_000);
    return streams;
  }
}
