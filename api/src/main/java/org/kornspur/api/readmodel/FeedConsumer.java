package org.kornspur.api.readmodel;

import java.time.Duration;
import java.util.HashMap;
import java.util.Map;
import org.apache.kafka.clients.consumer.CloseOptions;
import org.apache.kafka.clients.consumer.ConsumerConfig;
import org.apache.kafka.clients.consumer.KafkaConsumer;
import org.apache.kafka.common.serialization.ByteArrayDeserializer;
import org.apache.kafka.common.serialization.StringDeserializer;
import org.kornspur.api.kafka.ProcessorsClient;

/** Reads a topic for a feed, in no group, and asks seldom where nothing comes. */
final class FeedConsumer extends KafkaConsumer<String, byte[]> {
  /** So long the broker keeps a request open while there is nothing; what comes goes at once. */
  private static final int LONGEST_FETCH_MILLIS = 5_000;

  FeedConsumer(String feed, ProcessorsClient processors) {
    super(settings(feed, processors), new StringDeserializer(), new ByteArrayDeserializer());
  }

  private static Map<String, Object> settings(String feed, ProcessorsClient processors) {
    Map<String, Object> settings = new HashMap<>(processors.consumerSettings());
    settings.put(ConsumerConfig.CLIENT_ID_CONFIG, "feed-" + feed);
    settings.put(ConsumerConfig.FETCH_MAX_WAIT_MS_CONFIG, LONGEST_FETCH_MILLIS);
    return settings;
  }

  /** At once: the broker would answer a leave only behind the fetch that it keeps open. */
  @Override
  public void close() {
    close(CloseOptions.timeout(Duration.ZERO));
  }
}
