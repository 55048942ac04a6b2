package org.kornspur.api.export;

import io.micrometer.core.instrument.Gauge;
import io.micrometer.core.instrument.MeterRegistry;
import jakarta.annotation.PreDestroy;
import jakarta.enterprise.context.ApplicationScoped;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import org.apache.avro.specific.SpecificRecord;
import org.apache.kafka.clients.consumer.ConsumerConfig;
import org.apache.kafka.clients.consumer.ConsumerRecord;
import org.apache.kafka.clients.consumer.KafkaConsumer;
import org.apache.kafka.common.TopicPartition;
import org.apache.kafka.common.record.TimestampType;
import org.apache.kafka.common.serialization.ByteArrayDeserializer;
import org.apache.kafka.common.serialization.StringDeserializer;
import org.kornspur.api.export.EventIndex.Found;
import org.kornspur.api.export.EventIndex.Place;
import org.kornspur.api.export.EventIndex.Position;
import org.kornspur.api.export.epcis.EventQuery;
import org.kornspur.api.export.identity.EventId;
import org.kornspur.api.kafka.NotReady;
import org.kornspur.api.kafka.ProcessorsClient;
import org.kornspur.api.problem.NotReadyDetail;
import org.kornspur.api.readmodel.ReadsTopics;
import org.kornspur.api.readmodel.ReceiptTimes;
import org.kornspur.api.readmodel.TopicFollower;
import org.kornspur.contract.FactHeader;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.processors.stream.Topics;

/**
 * The facts topic by event time and record time: an index of all of it in memory, the facts
 * themselves read from the topic when they are asked for.
 */
@ApplicationScoped
public class EventLog implements ReadsTopics, ReceiptTimes {
  private static final Duration LONGEST_READ = Duration.ofSeconds(10);
  private static final Duration POLL = Duration.ofMillis(200);

  private final ProcessorsClient processors;
  private final EventIndex index = new EventIndex();
  private final TopicFollower follower;
  private KafkaConsumer<String, byte[]> reader;

  public EventLog(ProcessorsClient processors, MeterRegistry meters) {
    this.processors = processors;
    this.follower =
        new TopicFollower(
            "events", Topics.FACTS.topicName(), processors, this::receive, index::clear);
    Gauge.builder("kornspur.events", index, EventIndex::size)
        .description("Facts that can be asked for by event time and record time")
        .register(meters);
  }

  @Override
  public List<TopicFollower> followers() {
    return List.of(follower);
  }

  @PreDestroy
  synchronized void close() {
    closeReader();
  }

  private void receive(ConsumerRecord<String, byte[]> record) {
    if (record.value() == null) {
      return;
    }
    SpecificRecord fact = processors.wire().decode(record.value());
    FactType.of(fact.getSchema())
        .ifPresent(
            type -> {
              FactHeader header = FactType.headerOf(fact);
              index.add(
                  EventId.uuidOfFact(header.getFactId()),
                  type,
                  header.getHappenedAt().toEpochMilli(),
                  header.getRecordedAt().toEpochMilli(),
                  record.timestampType() == TimestampType.LOG_APPEND_TIME
                      ? record.timestamp()
                      : EventIndex.NOT_KEPT,
                  new Place(record.partition(), record.offset()));
            });
  }

  /** Empty too for what has not been read yet, so that a page need not wait for it. */
  @Override
  public Optional<Instant> receivedAt(String factId) {
    return index.receivedAt(EventId.uuidOfFact(factId));
  }

  /** The first events after a position that match by type and time. */
  List<Found> find(EventQuery query, Position after, int most) {
    follower.requireCaughtUp();
    return index.find(query.factTypes(), query, after, most);
  }

  Optional<SpecificRecord> fact(UUID eventId) {
    follower.requireCaughtUp();
    return index
        .place(eventId)
        .map(place -> read(List.of(place)).get(place))
        .filter(fact -> EventId.uuidOfFact(FactType.idOf(fact)).equals(eventId));
  }

  /** The facts at these places. */
  synchronized Map<Place, SpecificRecord> read(List<Place> places) {
    Map<Place, SpecificRecord> facts = new HashMap<>();
    Set<Place> asked = Set.copyOf(places);
    List<Place> inOrder = new ArrayList<>(places);
    inOrder.sort(Comparator.comparingInt(Place::partition).thenComparingLong(Place::offset));
    try {
      for (Place place : inOrder) {
        if (!facts.containsKey(place)) {
          readAround(place, asked, facts);
        }
      }
    } catch (RuntimeException fault) {
      closeReader();
      throw fault;
    }
    return facts;
  }

  private void readAround(Place place, Set<Place> asked, Map<Place, SpecificRecord> into) {
    TopicPartition partition = new TopicPartition(Topics.FACTS.topicName(), place.partition());
    KafkaConsumer<String, byte[]> consumer = openReader();
    consumer.assign(List.of(partition));
    consumer.seek(partition, place.offset());
    long end = System.nanoTime() + LONGEST_READ.toNanos();
    while (!into.containsKey(place)) {
      for (ConsumerRecord<String, byte[]> record : consumer.poll(POLL)) {
        Place here = new Place(record.partition(), record.offset());
        if (asked.contains(here)) {
          into.put(here, processors.wire().decode(record.value()));
        }
      }
      if (!into.containsKey(place) && System.nanoTime() > end) {
        throw new NotReady(
            new NotReadyDetail.FactNotGiven(
                partition.toString(), Long.toString(place.offset()), LONGEST_READ.toSeconds()),
            5);
      }
    }
  }

  private KafkaConsumer<String, byte[]> openReader() {
    if (reader == null) {
      Map<String, Object> settings = new HashMap<>(processors.consumerSettings());
      settings.put(ConsumerConfig.CLIENT_ID_CONFIG, "event-reader");
      settings.put(ConsumerConfig.MAX_PARTITION_FETCH_BYTES_CONFIG, 1 << 16);
      reader = new KafkaConsumer<>(settings, new StringDeserializer(), new ByteArrayDeserializer());
    }
    return reader;
  }

  private void closeReader() {
    if (reader != null) {
      reader.close();
      reader = null;
    }
  }
}
