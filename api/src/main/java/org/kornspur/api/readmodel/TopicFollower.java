package org.kornspur.api.readmodel;

import java.time.Duration;
import java.time.Instant;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.apache.kafka.clients.consumer.ConsumerRecord;
import org.apache.kafka.clients.consumer.KafkaConsumer;
import org.apache.kafka.common.TopicPartition;
import org.apache.kafka.common.errors.InterruptException;
import org.apache.kafka.common.errors.WakeupException;
import org.jboss.logging.Logger;
import org.kornspur.api.kafka.NotReady;
import org.kornspur.api.kafka.ProcessorsClient;
import org.kornspur.api.problem.NotReadyDetail;
import org.kornspur.ingest.registry.RegistryUnreachable;

/**
 * Reads a whole topic, from its beginning or from where its memory of an earlier run ends, all
 * partitions on this instance, and goes on reading. It survives a broker or registry that is away:
 * it goes on at the record where it stopped.
 *
 * <p>It is caught up once it has passed the end that the topic had when it was opened. Nothing ends
 * it but {@link #close}: after a fault it starts again, after longer and longer pauses, and is not
 * caught up until it is at the end again. After an error of the machine, such as one for lack of
 * memory, what was made of the records may be half done, so all of it is forgotten and read again.
 */
public final class TopicFollower implements AutoCloseable {
  private static final Logger LOG = Logger.getLogger(TopicFollower.class);
  private static final Duration POLL = Duration.ofSeconds(1);
  private static final long PAUSE_MILLIS = 500;
  private static final long LONGEST_PAUSE_MILLIS = 30_000;
  private static final long LONGEST_LEAVE_MILLIS = 5_000;
  private static final long NOT_FAILING = -1;

  /** Takes each record, in order within its partition. */
  public interface Receiver {
    void receive(ConsumerRecord<String, byte[]> record);
  }

  /**
   * A fault that a feed has not recovered from yet.
   *
   * @param since when it stopped to be in step with its topic
   * @param cause the latest fault
   */
  public record Failure(Instant since, Throwable cause) {}

  private final String name;
  private final String topic;
  private final ProcessorsClient processors;
  private final Receiver receiver;
  private final Runnable forgetAll;
  private final Thread thread;
  private final Map<TopicPartition, Long> next = new HashMap<>();
  private Map<TopicPartition, Long> endAtStart;
  private volatile KafkaConsumer<String, byte[]> open;
  private volatile boolean closed;
  private volatile boolean caughtUp;
  private volatile long lag;
  private volatile long failingSinceMillis = NOT_FAILING;
  private volatile Throwable lastFault;
  private long pauseMillis = PAUSE_MILLIS;
  private boolean mustReadAgain;
  private TopicSnapshot memory = TopicSnapshot.NONE;
  private final SkippedRecordLog skipped = new SkippedRecordLog();

  /**
   * A feed that is not started yet.
   *
   * @param name what it keeps, for health and log
   * @param forgetAll undoes every {@link Receiver#receive}
   */
  public TopicFollower(
      String name,
      String topic,
      ProcessorsClient processors,
      Receiver receiver,
      Runnable forgetAll) {
    this.name = name;
    this.topic = topic;
    this.processors = processors;
    this.receiver = receiver;
    this.forgetAll = forgetAll;
    this.thread = new Thread(this::run, "feed-" + name);
    this.thread.setDaemon(true);
  }

  /** Before its start: has it go on behind what is given back, which is asked for once. */
  TopicFollower goingOnAfter(TopicSnapshot earlier) {
    memory = earlier;
    return this;
  }

  public void start() {
    thread.start();
  }

  public boolean isAlive() {
    return thread.isAlive();
  }

  public boolean isCaughtUp() {
    return caughtUp;
  }

  /**
   * @throws NotReady until the topic has been read to the end that it had at the start
   */
  public void requireCaughtUp() {
    if (!caughtUp) {
      throw new NotReady(new NotReadyDetail.StillReading(topic), 2);
    }
  }

  /** What keeps it from being in step; empty where nothing does. */
  public Optional<Failure> failure() {
    return Optional.of(failingSinceMillis)
        .filter(since -> since != NOT_FAILING)
        .map(since -> new Failure(Instant.ofEpochMilli(since), lastFault));
  }

  /** Records of the topic that were not read at the last look. */
  public long lag() {
    return lag;
  }

  /** Records that could not be read and were passed over; the log tells of them once a minute. */
  public long skipped() {
    return skipped.count();
  }

  public String name() {
    return name;
  }

  public String topic() {
    return topic;
  }

  /** Asks it to end, and does not wait for it. */
  void beginClose() {
    closed = true;
    KafkaConsumer<String, byte[]> consumer = open;
    if (consumer == null) {
      thread.interrupt();
    } else {
      // an interrupted consumer cannot take leave of the broker, and says so as an error
      consumer.wakeup();
    }
  }

  @Override
  public void close() {
    beginClose();
    try {
      thread.join(LONGEST_LEAVE_MILLIS);
      thread.interrupt();
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  private void run() {
    while (!closed) {
      try {
        readUntilError();
      } catch (Throwable again) {
        // without memory nothing more may be possible here, not even a line in the log
        failed(again);
      }
    }
  }

  private void readUntilError() {
    try {
      if (mustReadAgain) {
        next.clear();
        memory = TopicSnapshot.NONE;
        forgetAll.run();
        mustReadAgain = false;
      }
      readUntilClosed();
    } catch (Error fault) {
      failed(fault);
      mustReadAgain = true;
      pauseLonger();
      LOG.errorf(fault, "Feed of %s failed; it forgets all and reads %s again", name, topic);
    }
  }

  /** Allocates nothing. */
  private void failed(Throwable fault) {
    caughtUp = false;
    endAtStart = null;
    lastFault = fault;
    if (failingSinceMillis == NOT_FAILING) {
      failingSinceMillis = System.currentTimeMillis();
    }
  }

  private void readUntilClosed() {
    while (!closed) {
      try (KafkaConsumer<String, byte[]> consumer = new FeedConsumer(name, processors)) {
        open = consumer;
        follow(consumer);
      } catch (NotReady notYet) {
        LOG.debugf("Feed of %s waits: %s", name, notYet.getMessage());
        pause(PAUSE_MILLIS);
      } catch (InterruptException | WakeupException end) {
        LOG.debugf("Feed of %s was woken", name);
      } catch (RuntimeException fault) {
        if (!closed) {
          failed(fault);
          LOG.warnf(fault, "Feed of %s stopped and starts again where it was", name);
          pauseLonger();
        }
      } finally {
        open = null;
      }
    }
  }

  private void follow(KafkaConsumer<String, byte[]> consumer) {
    List<TopicPartition> partitions =
        consumer.partitionsFor(topic).stream()
            .map(partition -> new TopicPartition(topic, partition.partition()))
            .toList();
    if (partitions.isEmpty()) {
      throw new NotReady(new NotReadyDetail.NoTopic(topic), 1);
    }
    consumer.assign(partitions);
    next.putAll(memory.recall(consumer));
    memory = TopicSnapshot.NONE;
    consumer.seekToBeginning(partitions);
    next.forEach(consumer::seek);
    if (endAtStart == null) {
      endAtStart = consumer.endOffsets(partitions);
    }
    while (!closed) {
      if (!caughtUp && hasPassed(consumer)) {
        caughtUp = true;
        pauseMillis = PAUSE_MILLIS;
        failingSinceMillis = NOT_FAILING;
      }
      for (ConsumerRecord<String, byte[]> record : consumer.poll(POLL)) {
        receive(record);
        next.put(new TopicPartition(topic, record.partition()), record.offset() + 1);
      }
      lag = partitions.stream().mapToLong(at -> consumer.currentLag(at).orElse(0)).sum();
    }
  }

  /** A registry that is away is waited for; a record that nobody can read is passed over. */
  private void receive(ConsumerRecord<String, byte[]> record) {
    try {
      receiver.receive(record);
    } catch (RegistryUnreachable | NotReady away) {
      throw away;
    } catch (RuntimeException unreadable) {
      skipped.add(record, unreadable);
    }
  }

  private boolean hasPassed(KafkaConsumer<String, byte[]> consumer) {
    return endAtStart.entrySet().stream()
        .allMatch(end -> consumer.position(end.getKey()) >= end.getValue());
  }

  private void pauseLonger() {
    pause(pauseMillis);
    pauseMillis = Math.min(2 * pauseMillis, LONGEST_PAUSE_MILLIS);
  }

  private void pause(long millis) {
    try {
      Thread.sleep(millis);
    } catch (InterruptedException e) {
      LOG.debugf("Feed of %s was woken from its pause", name);
    }
  }
}
