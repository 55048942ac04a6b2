package org.kornspur.api.kafka;

import java.time.Duration;
import java.util.Map;
import java.util.function.Supplier;
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

  private final Infrastructure infrastructure;
  private final WireFormat wire;
  private final Supplier<KafkaStreams> newStreams;
  private final HostInfo self;
  private volatile KafkaStreams streams;
  private volatile StoreLocator stores;
  private final FactPublisher publisher;
  private final ProcessingLag backlog;
  private final ThreadReplacement threads;
  private final SkippedRecords skipped;

  private RunningProcessors(
      Infrastructure infrastructure,
      WireFormat wire,
      Supplier<KafkaStreams> newStreams,
      HostInfo self,
      FactPublisher publisher,
      ProcessingLag backlog,
      ThreadReplacement threads,
      SkippedRecords skipped) {
    this.infrastructure = infrastructure;
    this.wire = wire;
    this.newStreams = newStreams;
    this.self = self;
    takeUpWork();
    this.publisher = publisher;
    this.backlog = backlog;
    this.threads = threads;
    this.skipped = skipped;
  }

  static RunningProcessors start(
      EngineSettings settings, SiteKeys keys, HostInfo self, RulesInForce rules) throws Exception {
    rules.start();
    Infrastructure infrastructure = Infrastructure.start(settings);
    try {
      StartCheck.run(infrastructure, settings, keys);
      TopicSetup.createMissing(infrastructure, settings);
      HttpSchemaRegistry registry =
          new HttpSchemaRegistry(RegistryConfig.of(infrastructure.clientSettings()));
      WireFormat wire = new WireFormat(registry);
      SkippedRecords skipped = new SkippedRecords();
      ThreadReplacement threads = new ThreadReplacement();
      return new RunningProcessors(
          infrastructure,
          wire,
          () -> streams(infrastructure, settings, keys, wire, self, threads, skipped, rules),
          self,
          FactPublisher.connect(infrastructure.clientSettings()),
          new ProcessingLag(infrastructure.clientSettings(), settings.applicationId()),
          threads,
          skipped);
    } catch (Exception failed) {
      infrastructure.close();
      throw failed;
    }
  }

  private static KafkaStreams streams(
      Infrastructure infrastructure,
      EngineSettings settings,
      SiteKeys keys,
      WireFormat wire,
      HostInfo self,
      ThreadReplacement threads,
      SkippedRecords skipped,
      RulesInForce rules) {
    Topology topology =
        KornspurTopology.build(
            wire,
            rules::judge,
            keys.trusted(),
            StateStores.onDisk(),
            new ChainSettings(
                keys.signing(), settings.checkpointRecords(), settings.checkpointInterval()));
    KafkaStreams streams =
        new KafkaStreams(
            topology,
            StreamsSettings.of(
                infrastructure,
                settings,
                self.host() + ":" + self.port(),
                skipped,
                rules.progress()));
    streams.setUncaughtExceptionHandler(threads);
    streams.setStateListener(
        (now, before) -> LOG.infof("Processors: %s (before: %s)", now, before));
    streams.start();
    return streams;
  }

  private void takeUpWork() {
    streams = newStreams.get();
    stores = new StoreLocator(streams, self);
  }

  /**
   * Does some work while the processors are stopped, and starts them again. The broker goes on and
   * takes facts. A pause of the stream would not do: it goes on to commit offsets.
   */
  synchronized <T> T whileStopped(StillWork<T> work) throws Exception {
    streams.close(STOP_TIMEOUT);
    try (IdleDetection quiet = new IdleDetection(infrastructure.clientSettings())) {
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
    return infrastructure.clientSettings();
  }

  /** Records that came in and are not processed yet. */
  ProcessingLag.Counted backlog() {
    return backlog.now();
  }

  @Override
  public synchronized void close() {
    publisher.close();
    backlog.close();
    streams.close(STOP_TIMEOUT);
    infrastructure.close();
  }
}
