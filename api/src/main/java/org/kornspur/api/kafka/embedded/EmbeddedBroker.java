package org.kornspur.api.kafka.embedded;

import java.io.OutputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import kafka.server.KafkaConfig;
import kafka.server.KafkaRaftServer;
import org.apache.kafka.common.Uuid;
import org.apache.kafka.common.utils.Time;
import org.apache.kafka.metadata.authorizer.StandardAuthorizer;
import org.apache.kafka.metadata.storage.Formatter;
import org.apache.kafka.server.common.MetadataVersion;
import org.kornspur.api.storage.CannotStart;
import org.kornspur.api.storage.DataFolder;

/**
 * A real Kafka broker with its controller (KRaft) in this process, for a run on one machine. It
 * listens on the loopback address only, serves only who has the secret of the data folder, and
 * keeps its data on disk between runs, without any limit of age. There is one copy of the data,
 * flushed to disk every second: a power cut may take the last second, a killed process nothing.
 */
public final class EmbeddedBroker implements AutoCloseable {

  private static final int NODE_ID = 1;

  private final DataFolder folder;
  private final LoopbackPorts.Pair ports;
  private final KafkaRaftServer server;

  private EmbeddedBroker(DataFolder folder, LoopbackPorts.Pair ports, KafkaRaftServer server) {
    this.folder = folder;
    this.ports = ports;
    this.server = server;
  }

  /**
   * Starts the broker and returns when it takes requests: about two seconds, or about four after a
   * kill, as the registration of the killed broker has to run out first.
   *
   * @param dataFolder where its data is or will be
   * @param port to listen on, or 0 for any free one
   * @param logins who may use it; nobody else is served
   * @throws CannotStart if the folder is in use or not writable, the port is taken, or the data
   *     cannot be read
   */
  public static EmbeddedBroker start(Path dataFolder, int port, BrokerLogins logins) {
    DataFolder folder = DataFolder.take(dataFolder);
    try {
      LoopbackPorts.Pair ports = LoopbackPorts.freePair(port);
      if (!Files.exists(folder.path().resolve("meta.properties"))) {
        format(folder.path());
      }
      ScramUsers.install();
      KafkaRaftServer server =
          new KafkaRaftServer(new KafkaConfig(settings(folder.path(), ports, logins)), Time.SYSTEM);
      server.startup();
      return new EmbeddedBroker(folder, ports, server);
    } catch (CannotStart e) {
      folder.close();
      throw e;
    } catch (Exception e) {
      folder.close();
      throw new CannotStart(
          "The broker did not start on data folder "
              + folder.path()
              + ": "
              + e
              + ". Nothing was deleted. The log above says what it could not read; start with an"
              + " empty folder and load the files again, or restore the folder from a copy",
          e);
    }
  }

  /** Where clients reach it, as {@code host:port}. */
  public String bootstrapServers() {
    return LoopbackPorts.HOST + ":" + ports.broker();
  }

  /** Where its controller listens, for itself alone. */
  String controllers() {
    return LoopbackPorts.HOST + ":" + ports.controller();
  }

  /** Stops the broker cleanly and lets go of its folder. */
  @Override
  public void close() {
    try {
      server.shutdown();
      server.awaitShutdown();
    } finally {
      folder.close();
    }
  }

  private static void format(Path folder) throws Exception {
    new Formatter()
        .setPrintStream(
            new PrintStream(OutputStream.nullOutputStream(), false, StandardCharsets.UTF_8))
        .setNodeId(NODE_ID)
        .setClusterId(Uuid.randomUuid().toString())
        .setDirectories(List.of(folder.toString()))
        .setMetadataLogDirectory(folder.toString())
        .setControllerListenerName("CONTROLLER")
        .setReleaseVersion(MetadataVersion.latestProduction())
        .run();
  }

  private static Map<String, String> settings(
      Path folder, LoopbackPorts.Pair ports, BrokerLogins logins) {
    String host = LoopbackPorts.HOST;
    Map<String, String> settings = new HashMap<>(logins.listenerSettings());
    settings.putAll(
        Map.ofEntries(
            Map.entry("authorizer.class.name", StandardAuthorizer.class.getName()),
            Map.entry("super.users", "User:" + logins.program().user()),
            Map.entry("process.roles", "broker,controller"),
            Map.entry("node.id", Integer.toString(NODE_ID)),
            Map.entry("controller.quorum.voters", NODE_ID + "@" + host + ":" + ports.controller()),
            Map.entry(
                "listeners",
                "BROKER://%s:%d,CONTROLLER://%s:%d"
                    .formatted(host, ports.broker(), host, ports.controller())),
            Map.entry("advertised.listeners", "BROKER://%s:%d".formatted(host, ports.broker())),
            Map.entry("inter.broker.listener.name", "BROKER"),
            Map.entry("controller.listener.names", "CONTROLLER"),
            // Loopback keeps other machines out, and not the other users of this one.
            Map.entry(
                "listener.security.protocol.map",
                "BROKER:%1$s,CONTROLLER:%1$s".formatted(BrokerLogins.PROTOCOL)),
            Map.entry("log.dirs", folder.toString()),

            // Facts are evidence: nothing grows old, nothing is made by a mistyped name.
            Map.entry("log.retention.ms", "-1"),
            Map.entry("auto.create.topics.enable", "false"),
            Map.entry("log.flush.interval.ms", "1000"),
            Map.entry("log.flush.scheduler.interval.ms", "1000"),

            // One node holds the only replica, also of what transactions and groups need.
            Map.entry("default.replication.factor", "1"),
            Map.entry("min.insync.replicas", "1"),
            Map.entry("offsets.topic.replication.factor", "1"),
            Map.entry("transaction.state.log.replication.factor", "1"),
            Map.entry("transaction.state.log.min.isr", "1"),
            Map.entry("share.coordinator.state.topic.replication.factor", "1"),
            Map.entry("share.coordinator.state.topic.min.isr", "1"),

            // After a kill the restart waits for the old registration; by default 9 s.
            Map.entry("broker.session.timeout.ms", "2000"),
            Map.entry("broker.heartbeat.interval.ms", "500"),
            Map.entry("group.initial.rebalance.delay.ms", "0"),

            // Room: the defaults are made for a machine of its own.
            Map.entry("offsets.topic.num.partitions", "4"),
            Map.entry("transaction.state.log.num.partitions", "4"),
            Map.entry("log.segment.bytes", Integer.toString(32 << 20)),
            Map.entry("log.index.size.max.bytes", Integer.toString(1 << 20)),
            Map.entry("log.cleaner.dedupe.buffer.size", Integer.toString(8 << 20)),
            Map.entry("num.network.threads", "2"),
            Map.entry("num.io.threads", "4")));
    return settings;
  }
}
