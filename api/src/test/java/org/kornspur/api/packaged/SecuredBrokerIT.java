package org.kornspur.api.packaged;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.Writer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Properties;
import java.util.concurrent.TimeUnit;
import org.apache.kafka.clients.admin.Admin;
import org.apache.kafka.clients.producer.KafkaProducer;
import org.apache.kafka.clients.producer.ProducerRecord;
import org.apache.kafka.common.errors.SaslAuthenticationException;
import org.apache.kafka.common.errors.TopicAuthorizationException;
import org.apache.kafka.common.security.plain.PlainLoginModule;
import org.apache.kafka.common.serialization.ByteArraySerializer;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.kornspur.api.FreePorts;
import org.kornspur.api.TestCertificate;
import org.kornspur.api.Waiting;
import org.kornspur.api.rest.InventedFacts;
import org.kornspur.processors.stream.Topics;

/**
 * The packaged application on a broker of a site that speaks TLS, asks who a client is and lets
 * each do what it may, with the settings that the manual names under "TLS, users and rights".
 */
class SecuredBrokerIT {
  private static final Map<String, String> PASSWORDS =
      Map.of("kornspur", "invented for the program", "client", "invented for a loader");

  private final int port = FreePorts.next();
  private final int controllerPort = FreePorts.next();
  private TestCertificate certificate;

  @Test
  @Timeout(600)
  void shouldWorkByTlsWithRightsOfItsOwn(@TempDir Path folder) throws Exception {
    certificate = TestCertificate.in(folder);
    Path home = Files.createDirectory(folder.resolve("program"));
    try (ServerProcess broker = startBroker(folder);
        OneMachine machine = new OneMachine(home)) {
      machine
          .with("KORNSPUR_BOOTSTRAP_SERVERS", "127.0.0.1:" + port)
          .with("KORNSPUR_REPLICATION", "1")
          .with("KORNSPUR_CLIENTS", "User:client");
      client("kornspur")
          .forEach(
              (name, value) ->
                  machine.with("KORNSPUR_KAFKA_" + name.toUpperCase().replace('.', '_'), value));
      machine.start();
      machine.awaitReady();
      assertThat(broker.isAlive()).isTrue();
      String lot = InventedFacts.lot("by-tls", "BY-TLS", "SX", 500);
      assertThat(machine.site().postLines("/api/v1/facts", lot).status()).isEqualTo(200);
      Waiting.until(() -> machine.site().get("/api/v1/lots/BY-TLS").status() == 200);
      assertRights();
      machine.stop();
    }
  }

  private void assertRights() throws Exception {
    send("client", Topics.FACTS.topicName());
    assertThatThrownBy(() -> send("client", Topics.STANDINGS.topicName()))
        .hasCauseInstanceOf(TopicAuthorizationException.class);

    Map<String, Object> unknown = new HashMap<>(client("client"));
    unknown.put("sasl.jaas.config", jaas("client", "guessed"));
    assertThatThrownBy(() -> topicsSeenWith(unknown))
        .hasCauseInstanceOf(SaslAuthenticationException.class);

    Map<String, Object> plain = new HashMap<>(client("client"));
    plain.put("security.protocol", "SASL_PLAINTEXT");
    plain.put("default.api.timeout.ms", 3_000);
    plain.put("request.timeout.ms", 2_000);
    assertThatThrownBy(() -> topicsSeenWith(plain)).as("without TLS").isNotNull();
  }

  private void topicsSeenWith(Map<String, Object> settings) throws Exception {
    settings.put("bootstrap.servers", "127.0.0.1:" + port);
    try (Admin admin = Admin.create(settings)) {
      admin.listTopics().names().get(30, TimeUnit.SECONDS);
    }
  }

  private void send(String user, String topic) throws Exception {
    Map<String, Object> settings = new HashMap<>(client(user));
    settings.put("bootstrap.servers", "127.0.0.1:" + port);
    settings.put("enable.idempotence", false);
    try (KafkaProducer<byte[], byte[]> producer =
        new KafkaProducer<>(settings, new ByteArraySerializer(), new ByteArraySerializer())) {
      producer.send(new ProducerRecord<>(topic, new byte[] {1}, new byte[] {1})).get();
    }
  }

  /** Settings of a Kafka client, as they stand in the manual. */
  private Map<String, String> client(String user) {
    return Map.of(
        "security.protocol",
        "SASL_SSL",
        "ssl.truststore.type",
        "PEM",
        "ssl.truststore.location",
        certificate.pem().toString(),
        "sasl.mechanism",
        "PLAIN",
        "sasl.jaas.config",
        jaas(user, PASSWORDS.get(user)));
  }

  private static String jaas(String user, String password) {
    return "%s required username=\"%s\" password=\"%s\";"
        .formatted(PlainLoginModule.class.getName(), user, password);
  }

  private ServerProcess startBroker(Path folder) throws Exception {
    Properties settings = new Properties();
    settings.setProperty(BrokerProcess.CLUSTER_ID, "S29ybnNwdXItc2VjdXJlZA");
    settings.setProperty("node.id", "1");
    settings.setProperty("process.roles", "broker,controller");
    settings.setProperty("controller.quorum.voters", "1@127.0.0.1:" + controllerPort);
    settings.setProperty(
        "listeners",
        "SITE://127.0.0.1:%d,CONTROLLER://127.0.0.1:%d".formatted(port, controllerPort));
    settings.setProperty("listener.security.protocol.map", "SITE:SASL_SSL,CONTROLLER:SASL_SSL");
    settings.setProperty("controller.listener.names", "CONTROLLER");
    settings.setProperty("inter.broker.listener.name", "SITE");
    settings.setProperty("sasl.enabled.mechanisms", "PLAIN");
    settings.setProperty("sasl.mechanism.inter.broker.protocol", "PLAIN");
    settings.setProperty("sasl.mechanism.controller.protocol", "PLAIN");
    for (String listener : List.of("site", "controller")) {
      settings.setProperty(
          "listener.name." + listener + ".plain.sasl.jaas.config",
          jaas("kornspur", PASSWORDS.get("kornspur"))
              .replace(
                  ";",
                  " user_kornspur=\"%s\" user_client=\"%s\";"
                      .formatted(PASSWORDS.get("kornspur"), PASSWORDS.get("client"))));
    }
    settings.setProperty("ssl.keystore.type", "PKCS12");
    settings.setProperty("ssl.keystore.location", certificate.keyStore().toString());
    settings.setProperty("ssl.keystore.password", TestCertificate.PASSWORD);
    settings.setProperty("ssl.truststore.type", "PEM");
    settings.setProperty("ssl.truststore.location", certificate.pem().toString());
    settings.setProperty(
        "authorizer.class.name", "org.apache.kafka.metadata.authorizer.StandardAuthorizer");
    settings.setProperty("super.users", "User:kornspur");
    settings.setProperty("log.dirs", folder.resolve("broker").toString());
    settings.setProperty("auto.create.topics.enable", "false");
    for (String one :
        List.of(
            "offsets.topic.replication.factor",
            "transaction.state.log.replication.factor",
            "transaction.state.log.min.isr",
            "share.coordinator.state.topic.replication.factor",
            "share.coordinator.state.topic.min.isr",
            "offsets.topic.num.partitions",
            "transaction.state.log.num.partitions")) {
      settings.setProperty(one, "1");
    }
    Path file = folder.resolve("broker.properties");
    try (Writer writer = Files.newBufferedWriter(file)) {
      settings.store(writer, null);
    }
    return ServerProcess.start(
        "broker",
        folder,
        Map.of(),
        List.of(
            "-Xmx300m",
            "-cp",
            TestClassPath.absolute(),
            BrokerProcess.class.getName(),
            file.toString()));
  }
}
