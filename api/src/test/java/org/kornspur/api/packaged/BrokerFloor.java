package org.kornspur.api.packaged;

import java.time.Duration;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.apache.kafka.clients.admin.Admin;
import org.apache.kafka.clients.admin.NewTopic;
import org.apache.kafka.clients.consumer.KafkaConsumer;
import org.apache.kafka.clients.producer.KafkaProducer;
import org.apache.kafka.clients.producer.ProducerRecord;
import org.apache.kafka.common.TopicPartition;
import org.apache.kafka.common.serialization.ByteArraySerializer;

/** What the broker of a machine takes and gives when nothing is done with it: the upper bound. */
final class BrokerFloor {
  private static final String TOPIC = "load-floor";
  private static final int RECORDS = 100_000;
  private static final int RECORD_BYTES = 600;

  private BrokerFloor() {}

  static void note(OneMachine machine, LoadReport report) throws Exception {
    try (Admin admin = Admin.create(machine.programSettings())) {
      admin
          .createTopics(List.of(new NewTopic(TOPIC, Optional.of(1), Optional.of((short) 1))))
          .all()
          .get();
      roundTrip(machine); // the first one waits for Java to compile
      long began = System.nanoTime();
      roundTrip(machine);
      double seconds = (System.nanoTime() - began) / 1e9;
      report.note("broker alone, records a second", "%.0f", RECORDS / seconds);
      admin.deleteTopics(List.of(TOPIC)).all().get();
    }
  }

  private static void roundTrip(OneMachine machine) {
    Map<String, Object> settings = new HashMap<>(machine.programSettings());
    settings.put("linger.ms", 10);
    TopicPartition partition = new TopicPartition(TOPIC, 0);
    try (KafkaConsumer<byte[], byte[]> reader = SingleFacts.reader(machine)) {
      reader.assign(List.of(partition));
      reader.seekToEnd(List.of(partition));
      long end = reader.position(partition) + RECORDS;
      try (KafkaProducer<byte[], byte[]> producer =
          new KafkaProducer<>(settings, new ByteArraySerializer(), new ByteArraySerializer())) {
        byte[] value = new byte[RECORD_BYTES];
        for (int record = 0; record < RECORDS; record++) {
          producer.send(new ProducerRecord<>(TOPIC, value));
        }
      }
      while (reader.position(partition) < end) {
        reader.poll(Duration.ofSeconds(1));
      }
    }
  }
}
