package org.kornspur.ingest.publish;

import java.io.IOException;
import java.net.BindException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.Map;
import java.util.concurrent.ThreadLocalRandom;
import kafka.server.KafkaConfig;
import kafka.server.KafkaRaftServer;
import org.apache.kafka.common.Uuid;
import org.apache.kafka.common.utils.Time;
import org.apache.kafka.metadata.storage.Formatter;
import org.apache.kafka.server.common.MetadataVersion;

/** A real broker of one node for a test, with its data in a given folder. */
public final class OneBroker implements AutoCloseable {

  private final KafkaRaftServer server;
  private final String bootstrap;

  private OneBroker(KafkaRaftServer server, String bootstrap) {
    this.server = server;
    this.bootstrap = bootstrap;
  }

  /** Formats the folder and starts the broker. */
  public static OneBroker start(Path folder) throws Exception {
    new Formatter()
        .setNodeId(1)
        .setClusterId(Uuid.randomUuid().toString())
        .addDirectory(folder.toString())
        .setMetadataLogDirectory(folder.toString())
        .setReleaseVersion(MetadataVersion.LATEST_PRODUCTION)
        .setControllerListenerName("CONTROLLER")
        // Under version 2 a transaction that begins while the producer's last one is still being
        // completed is now and then refused for good, with INVALID_TXN_STATE, on a loaded machine.
        .setFeatureLevel("transaction.version", (short) 1)
        .run();
    return again(folder);
  }

  /** Starts the broker on a folder that another one left. */
  public static OneBroker again(Path folder) throws IOException {
    int port = freePorts();
    String broker = "127.0.0.1:" + port;
    String controller = "127.0.0.1:" + (port + 1);
    Map<String, String> settings = new HashMap<>();
    settings.put("process.roles", "broker,controller");
    settings.put("node.id", "1");
    settings.put("controller.quorum.voters", "1@" + controller);
    settings.put("controller.listener.names", "CONTROLLER");
    settings.put("listeners", "PLAINTEXT://" + broker + ",CONTROLLER://" + controller);
    settings.put("listener.security.protocol.map", "PLAINTEXT:PLAINTEXT,CONTROLLER:PLAINTEXT");
    settings.put("log.dirs", folder.toString());
    settings.put("offsets.topic.replication.factor", "1");
    settings.put("transaction.state.log.replication.factor", "1");
    settings.put("transaction.state.log.min.isr", "1");
    settings.put("transaction.state.log.num.partitions", "1");
    settings.put("num.partitions", "4");
    // a consumer group or a transaction makes all of them, and a start looks through each
    settings.put("offsets.topic.num.partitions", "1");
    settings.put("group.initial.rebalance.delay.ms", "0");
    settings.put("log.cleaner.dedupe.buffer.size", Integer.toString(8 << 20));
    settings.put("log.index.size.max.bytes", Integer.toString(1 << 20));
    // as at a site; else records with times of long ago go half a minute after the start
    settings.put("log.retention.ms", "-1");
    KafkaRaftServer server = new KafkaRaftServer(new KafkaConfig(settings), Time.SYSTEM);
    server.startup();
    return new OneBroker(server, broker);
  }

  /** Address for clients. */
  public String bootstrap() {
    return bootstrap;
  }

  @Override
  public void close() {
    server.shutdown();
    server.awaitShutdown();
  }

  /**
   * The first of two neighbouring ports that are free, from below those that systems give to
   * outgoing connections: none of these can take them before the broker does.
   */
  private static int freePorts() throws IOException {
    for (int attempt = 0; attempt < 100; attempt++) {
      int port = ThreadLocalRandom.current().nextInt(20_000, 32_000);
      InetAddress loopback = InetAddress.getByName("127.0.0.1");
      try (ServerSocket first = new ServerSocket(port, 1, loopback);
          ServerSocket second = new ServerSocket(port + 1, 1, loopback)) {
        return port;
      } catch (BindException taken) {
        // others are there
      }
    }
    throw new IOException("No two neighbouring ports from 20000 to 32000 are free");
  }
}
