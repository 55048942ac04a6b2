package org.kornspur.api.runtime;

import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.BeforeAll;
import org.testcontainers.DockerClientFactory;
import org.testcontainers.kafka.KafkaContainer;

/**
 * The contract against the official image of the broker. It needs a container engine and says so
 * where there is none; the same cases have then still run against the broker in this process.
 */
class ContainerBrokerTest extends BrokerContractTest {

  private static final String IMAGE = "apache/kafka:4.1.2";

  private static KafkaContainer broker;

  @BeforeAll
  static void startBroker() {
    boolean engine = DockerClientFactory.instance().isDockerAvailable();
    if (!engine) {
      System.out.println(
          "NOT RUN: the broker contract against "
              + IMAGE
              + ", because no container engine answers on this machine. Start Docker and run the"
              + " tests again to have it checked.");
    }
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
  String bootstrapServers() {
    return broker.getBootstrapServers();
  }
}
