package org.kornspur.api.kafka;

import io.micrometer.core.instrument.MeterRegistry;
import java.time.Duration;
import java.util.Map;
import org.apache.kafka.streams.KafkaStreams;
import org.apache.kafka.streams.Topology;
import org.apache.kafka.streams.state.HostInfo;
import org.jboss.logging.Logger;
import org.kornspur.ingest.publish.FactPublisher;
import org.kornspur.ingest.registry.HttpSchemaRegistry;
import org.kornspur.ingest.registry.RegistryConfig;
import org.kornspur.ingest.wire.WireFormat;
import org.kornspur.processors.stream.ChainSettings;
import org.kornspur.processors.stream.KornspurTopology;
import org.kornspur.processors.stream.SkippedRecords;
import org.kornspur.processors.stream.StateStores;

/** Broker, registry, topology and publisher of one process, started and stopped together. */
final class RunningProcessors implements AutoCloseable {
  private static final Logger LOG = Logger.getLogger(RunningProcessors.class);
  private static final Duration STOP_TIMEOUT = Duration.ofSeconds(20);

  private final BrokerAndRegistry brokerAndRegistry;
  private final EngineSettings settings;
  private final SiteKeys keys;
  private final HostInfo self;
  private final RulesInForce rules;
  private final StreamMeters meters;
  private final WireFormat wire;
  private final FactPublisher publisher;
  private final ProcessingLag backlog;
  private final ThreadReplacement threads = new ThreadReplacement();
  private final SkippedRecords skipped = new SkippedRecords();
  private volatile KafkaStreams streams;
  private volatile StoreLocator stores;

  private RunningProcessors(
      BrokerAndRegistry brokerAndRegistry,
      EngineSettings settings,
      SiteKeys keys,
      HostInfo self,
      RulesInForce rules,
      StreamMeters meters)
      throws Exception {
    Map<String, Object> client = brokerAndRegistry.clientSettings();
    this.brokerAndRegistry = brokerAndRegistry;
    this.settings = settings;
    this.keys = keys;
    this.self = self;
    this.rules = rules;
    this.meters = meters;
    this.wire = new WireFormat(new HttpSchemaRegistry(RegistryConfig.of(client)));
    this.publisher = FactPublisher.connect(client);
    this.backlog = new ProcessingLag(client, settings.applicationId());
    takeUpWork();
  }

  static RunningProcessors start(
      EngineSettings settings,
      SiteKeys keys,
      HostInfo self,
      RulesInForce rules,
      MeterRegistry meters)
      throws Exception {
    rules.start();
    BrokerAndRegistry brokerAndRegistry = BrokerAndRegistry.start(settings);
    try {
      StartCheck.run(brokerAndRegistry, settings, keys);
      TopicSetup.createMissing(brokerAndRegistry, settings);
      return new RunningProcessors(
          brokerAndRegistry, settings, keys, self, rules, new StreamMeters(meters));
    } catch (Exception failed) {
      brokerAndRegistry.close();
      throw failed;
    }
  }

  private KafkaStreams newStreams() {
    Topology topology =
        KornspurTopology.build(
            wire,
            rules::judge,
            keys.trusted(),
            StateStores.onDisk(),
            new ChainSettings(
                keys.signing(), settings.checkpointRecords(), settings.checkpointInterval()));
    KafkaStreams made =
        new KafkaStreams(
            topology,
            StreamsSettings.of(
                brokerAndRegistry,
                settings,
                self.host() + ":" + self.port(),
                skipped,
                rules.progress(),
                meters.delays()));
    made.setUncaughtExceptionHandler(threads);
    made.setStateListener((now, before) -> LOG.infof("Processors: %s (before: %s)", now, before));
    made.start();
    meters.follow(made);
    return made;
  }

  private void takeUpWork() {
    streams = newStreams();
    stores = new StoreLocator(streams, self);
  }

  /**
   * Does some work while the processors are stopped, and starts them again. The broker goes on and
   * takes facts. A pause of the stream would not do: it goes on to commit offsets.
   */
  synchronized <T> T whileStopped(StillWork<T> work) throws Exception {
    streams.close(STOP_TIMEOUT);
    try (IdleDetection quiet = new IdleDetection(brokerAndRegistry.clientSettings())) {
      return work.run(quiet);
    } finally {
      takeUpWork();
    }
  }

  /** What is done while the processors are stopped. */
  interface StillWork<T> {
    T run(IdleDetection quiet) throws Exception;
  }

  boolean isRunning() {
    return streams.state() == KafkaStreams.State.RUNNING && threads.unsettled().isEmpty();
  }

  boolean hasFailed() {
    return streams.state() == KafkaStreams.State.ERROR
        || streams.state() == KafkaStreams.State.PENDING_ERROR;
  }

  String condition() {
    return switch (streams.state()) {
      case CREATED, REBALANCING -> "taking up work: restoring state and sharing partitions";
      case RUNNING ->
          threads
              .unsettled()
              .map(cause -> "starting again after a thread died: " + cause)
              .orElse("running");
      case PENDING_SHUTDOWN, NOT_RUNNING -> "stopping, or stopped while a backup is made";
      case PENDING_ERROR, ERROR -> "failed; see the log and restart";
    };
  }

  /** Records that were passed over since the start, because nothing can be made of them. */
  SkippedRecords skipped() {
    return skipped;
  }

  WireFormat wire() {
    return wire;
  }

  StoreLocator stores() {
    return stores;
  }

  FactPublisher publisher() {
    return publisher;
  }

  Map<String, Object> clientSettings() {
    return brokerAndRegistry.clientSettings();
  }

  /** Records that came in and are not processed yet. */
  ProcessingLag backlog() {
    return backlog;
  }

  @Override
  public synchronized void close() {
    publisher.close();
    backlog.close();
    meters.close();
    streams.close(STOP_TIMEOUT);
    brokerAndRegistry.close();
  }
}
