package org.kornspur.api.kafka.embedded;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.BufferedReader;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;
import org.apache.kafka.clients.admin.Admin;
import org.apache.kafka.clients.admin.NewTopic;
import org.apache.kafka.clients.consumer.KafkaConsumer;
import org.apache.kafka.clients.producer.KafkaProducer;
import org.apache.kafka.clients.producer.ProducerRecord;
import org.apache.kafka.common.TopicPartition;
import org.apache.kafka.common.serialization.StringDeserializer;
import org.apache.kafka.common.serialization.StringSerializer;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What was acknowledged is still there after the process was killed without warning. */
class KilledBrokerIT {

  private static final String TOPIC = "killed";
  private static final int COUNT = 200;

  @Test
  void shouldLoseNothingThatWasAcknowledged(@TempDir Path folder) throws Exception {
    Process process =
        new ProcessBuilder(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-Xmx256m",
                "-XX:TieredStopAtLevel=1",
                "-cp",
                System.getProperty("java.class.path"),
                Victim.class.getName(),
                folder.toString())
            .redirectErrorStream(true)
            .start();
    try (BufferedReader output = process.inputReader()) {
      List<String> lines = new ArrayList<>();
      String line = output.readLine();
      while (line != null && !line.equals(Victim.WRITTEN)) {
        lines.add(line);
        line = output.readLine();
      }
      assertThat(line).as(String.join("\n", lines)).isEqualTo(Victim.WRITTEN);
    } finally {
      process.destroyForcibly().waitFor();
    }

    try (EmbeddedBroker broker = EmbeddedBroker.start(folder, 0, BrokerLogins.in(folder))) {
      assertThat(read(settings(broker, folder)))
          .containsExactlyElementsOf(IntStream.range(0, COUNT).mapToObj(i -> "v" + i).toList());
    }
  }

  private static Map<String, Object> settings(EmbeddedBroker broker, Path folder) {
    Map<String, Object> settings =
        new HashMap<>(BrokerLogins.in(folder).program().brokerSettings());
    settings.put("bootstrap.servers", broker.bootstrapServers());
    return settings;
  }

  private static List<String> read(Map<String, Object> settings) {
    List<String> values = new ArrayList<>();
    try (KafkaConsumer<String, String> consumer =
        new KafkaConsumer<>(settings, new StringDeserializer(), new StringDeserializer())) {
      TopicPartition partition = new TopicPartition(TOPIC, 0);
      consumer.assign(List.of(partition));
      consumer.seekToBeginning(List.of(partition));
      long deadline = System.nanoTime() + Duration.ofMinutes(2).toNanos();
      while (values.size() < COUNT && System.nanoTime() < deadline) {
        consumer.poll(Duration.ofMillis(200)).forEach(record -> values.add(record.value()));
      }
    }
    return values;
  }

  /** The process that is killed: it says when everything is acknowledged, and then waits. */
  static final class Victim {

    private static final String WRITTEN = "written";

    private Victim() {}

    public static void main(String[] folder) throws Exception {
      Path data = Path.of(folder[0]);
      EmbeddedBroker broker = EmbeddedBroker.start(data, 0, BrokerLogins.in(data));
      Map<String, Object> config = settings(broker, data);
      try (Admin admin = Admin.create(config)) {
        admin.createTopics(List.of(new NewTopic(TOPIC, 1, (short) 1))).all().get();
      }
      try (KafkaProducer<String, String> producer =
          new KafkaProducer<>(config, new StringSerializer(), new StringSerializer())) {
        for (int i = 0; i < COUNT; i++) {
          producer.send(new ProducerRecord<>(TOPIC, "v" + i)).get();
        }
      }
      System.out.println(WRITTEN);
      Thread.sleep(Duration.ofMinutes(2).toMillis());
    }
  }
}
