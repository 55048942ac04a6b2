package org.kornspur.api.packaged;

import java.io.OutputStream;
import java.io.PrintStream;
import java.io.Reader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Properties;
import java.util.TreeMap;
import kafka.server.KafkaConfig;
import kafka.server.KafkaRaftServer;
import org.apache.kafka.common.utils.Time;
import org.apache.kafka.metadata.storage.Formatter;
import org.apache.kafka.server.common.MetadataVersion;

/**
 * One broker and controller of a cluster as a process, as the Kafka image runs it: formats its
 * folder at the first start, then serves until it is stopped.
 */
final class BrokerProcess {

  static final String CLUSTER_ID = "cluster.id";

  private BrokerProcess() {}

  /** Takes one argument: a file with the broker's properties and {@value #CLUSTER_ID}. */
  public static void main(String... arguments) throws Exception {
    Properties file = new Properties();
    try (Reader reader = Files.newBufferedReader(Path.of(arguments[0]))) {
      file.load(reader);
    }
    Map<String, String> settings = new TreeMap<>();
    file.stringPropertyNames().forEach(name -> settings.put(name, file.getProperty(name)));
    String clusterId = settings.remove(CLUSTER_ID);
    KafkaConfig config = new KafkaConfig(settings);
    String folder = settings.get("log.dirs");
    if (!Files.exists(Path.of(folder, "meta.properties"))) {
      format(folder, clusterId, config.nodeId());
    }
    KafkaRaftServer server = new KafkaRaftServer(config, Time.SYSTEM);
    Runtime.getRuntime().addShutdownHook(new Thread(server::shutdown));
    server.startup();
    server.awaitShutdown();
  }

  private static void format(String folder, String clusterId, int nodeId) throws Exception {
    new Formatter()
        .setPrintStream(
            new PrintStream(OutputStream.nullOutputStream(), false, StandardCharsets.UTF_8))
        .setNodeId(nodeId)
        .setClusterId(clusterId)
        .setDirectories(List.of(folder))
        .setMetadataLogDirectory(folder)
        .setControllerListenerName("CONTROLLER")
        .setReleaseVersion(MetadataVersion.latestProduction())
        .run();
  }
}
