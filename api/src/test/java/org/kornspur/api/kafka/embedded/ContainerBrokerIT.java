package org.kornspur.api.kafka.embedded;

import java.util.Map;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.BeforeAll;
import org.kornspur.api.NotRun;
import org.kornspur.api.Program;
import org.testcontainers.DockerClientFactory;
import org.testcontainers.kafka.KafkaContainer;

/**
 * The contract against the official image of the broker. It needs a container engine, and is left
 * out where there is none; the same cases have then still run against the broker in this process.
 */
class ContainerBrokerIT extends BrokerContractTest {

  private static final String IMAGE = "apache/kafka:4.1.2";

  private static KafkaContainer broker;

  @BeforeAll
  static void startBroker() {
    boolean engine = DockerClientFactory.instance().isDockerAvailable();
    NotRun.note(Program.CONTAINER_ENGINE, !engine);
    Assumptions.assumeTrue(engine, "no container engine answers on this machine");
    broker = new KafkaContainer(IMAGE);
    broker.start();
  }

  @AfterAll
  static void stopBroker() {
    if (broker != null) {
      broker.stop();
    }
  }

  @Override
  Map<String, Object> clientSettings() {
    return Map.of("bootstrap.servers", broker.getBootstrapServers());
  }
}
