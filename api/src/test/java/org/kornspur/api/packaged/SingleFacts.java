package org.kornspur.api.packaged;

import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.apache.kafka.clients.consumer.KafkaConsumer;
import org.apache.kafka.common.TopicPartition;
import org.apache.kafka.common.serialization.ByteArrayDeserializer;
import org.kornspur.api.rest.InventedFacts;

/** How long one fact takes to its standing while nothing else is to be done. */
final class SingleFacts {
  static final String STANDINGS = "kornspur.standings";

  private static final int SINGLE_FACTS = 60;

  private SingleFacts() {}

  /** From the request that brings a fact to the standing that a reader of the topic gets. */
  static void note(OneMachine machine, LoadReport report) throws Exception {
    double[] millis = new double[SINGLE_FACTS];
    try (KafkaConsumer<byte[], byte[]> reader = reader(machine)) {
      List<TopicPartition> partitions =
          reader.partitionsFor(STANDINGS).stream()
              .map(part -> new TopicPartition(STANDINGS, part.partition()))
              .toList();
      reader.assign(partitions);
      reader.seekToEnd(partitions);
      partitions.forEach(
          reader::position); // looked up now; else a first standing may lie before it
      for (int fact = 0; fact < SINGLE_FACTS; fact++) {
        String lot = "SINGLE-" + fact;
        long began = System.nanoTime();
        Site.Answer answer =
            machine
                .site()
                .postLines("/api/v1/facts", InventedFacts.lot("single-" + fact, lot, "SX", 500));
        if (answer.status() != 200) {
          throw new IllegalStateException("Answered with " + answer);
        }
        awaitStanding(reader, "lot:" + lot);
        millis[fact] = (System.nanoTime() - began) / 1e6;
        Thread.sleep(37);
      }
    }
    Arrays.sort(millis);
    report.note("one fact on a quiet system, median", "%.0f ms", millis[SINGLE_FACTS / 2]);
    report.note("the slowest of " + SINGLE_FACTS, "%.0f ms", millis[SINGLE_FACTS - 1]);
  }

  private static void awaitStanding(KafkaConsumer<byte[], byte[]> reader, String subject) {
    boolean[] found = {false};
    Deadline deadline = Deadline.in(Duration.ofSeconds(30), "the standing of " + subject);
    while (!found[0]) {
      if (deadline.passed()) {
        throw deadline.missed("no record");
      }
      reader
          .poll(Duration.ofMillis(50))
          .forEach(
              record ->
                  found[0] |= subject.equals(new String(record.key(), StandardCharsets.UTF_8)));
    }
  }

  static KafkaConsumer<byte[], byte[]> reader(OneMachine machine) {
    Map<String, Object> settings = new HashMap<>(machine.programSettings());
    settings.put("isolation.level", "read_committed");
    settings.put("enable.auto.commit", false);
    settings.put("fetch.min.bytes", 1);
    return new KafkaConsumer<>(settings, new ByteArrayDeserializer(), new ByteArrayDeserializer());
  }
}
