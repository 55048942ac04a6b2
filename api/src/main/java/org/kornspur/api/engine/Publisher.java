package org.kornspur.api.engine;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.Future;
import org.apache.avro.specific.SpecificRecord;
import org.apache.kafka.clients.producer.KafkaProducer;
import org.apache.kafka.clients.producer.ProducerRecord;
import org.apache.kafka.clients.producer.RecordMetadata;
import org.apache.kafka.common.serialization.StringSerializer;
import org.kornspur.contract.QuarantineEntry;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.wire.AvroSerdes;
import org.kornspur.processors.stream.Topics;

/** Writes facts and quarantine entries, and returns when the broker has them. */
final class Publisher implements AutoCloseable {
  private final KafkaProducer<String, SpecificRecord> producer;

  Publisher(Map<String, Object> clientSettings) {
    producer =
        new KafkaProducer<>(
            clientSettings, new StringSerializer(), AvroSerdes.serializer(clientSettings));
  }

  void publish(List<? extends SpecificRecord> facts) {
    List<Future<RecordMetadata>> sent = new ArrayList<>();
    for (SpecificRecord fact : facts) {
      sent.add(
          producer.send(
              new ProducerRecord<>(
                  Topics.FACTS.topicName(), FactType.headerOf(fact).getFactId(), fact)));
    }
    sent.forEach(Publisher::await);
  }

  void quarantine(QuarantineEntry entry) {
    await(
        producer.send(
            new ProducerRecord<>(Topics.QUARANTINE.topicName(), entry.getEntryId(), entry)));
  }

  @Override
  public void close() {
    producer.close(java.time.Duration.ofSeconds(10));
  }

  private static void await(Future<RecordMetadata> sent) {
    try {
      sent.get();
    } catch (ExecutionException failed) {
      throw new NotReady("The broker did not take the record: " + failed.getCause(), 5);
    } catch (InterruptedException interrupted) {
      Thread.currentThread().interrupt();
      throw new NotReady("Interrupted while the record was on its way to the broker.", 5);
    }
  }
}
