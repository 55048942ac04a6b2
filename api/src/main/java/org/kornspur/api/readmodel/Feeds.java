package org.kornspur.api.readmodel;

import io.micrometer.core.instrument.Gauge;
import io.micrometer.core.instrument.MeterRegistry;
import io.quarkus.runtime.ShutdownEvent;
import io.quarkus.runtime.StartupEvent;
import jakarta.annotation.Priority;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Observes;
import jakarta.inject.Inject;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.apache.kafka.clients.consumer.ConsumerRecord;
import org.kornspur.api.kafka.Engine;
import org.kornspur.api.kafka.NotReady;
import org.kornspur.contract.PersonName;
import org.kornspur.contract.QuarantineEntry;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.stream.Topics;
import org.kornspur.standing.LotStanding;

/** Keeps the indexes in step with their topics, and gives them out once they are complete. */
@ApplicationScoped
public class Feeds implements ReadsTopics {
  private static final int KEPT_CHANGES = 10_000;

  private final Engine engine;
  private final StandingIndex standings = new StandingIndex();
  private final QuarantineIndex quarantine = new QuarantineIndex();
  private final ChangeHub changes = new ChangeHub(KEPT_CHANGES);
  private final TopicFollower standingFeed;
  private final TopicFollower quarantineFeed;
  private final SignerIndex signers = new SignerIndex();
  private final TopicFollower signerFeed;

  @Inject
  public Feeds(Engine engine, MeterRegistry meters) {
    this.engine = engine;
    this.standingFeed =
        new TopicFollower(
            "standings",
            Topics.STANDINGS.topicName(),
            engine,
            this::receiveStanding,
            standings::clear);
    this.quarantineFeed =
        new TopicFollower(
            "quarantine",
            Topics.QUARANTINE.topicName(),
            engine,
            this::receiveQuarantine,
            quarantine::clear);
    this.signerFeed =
        new TopicFollower(
            "signers", Topics.PEOPLE.topicName(), engine, this::receiveSigner, signers::clear);
    feeds().forEach(feed -> measure(feed, meters));
    Gauge.builder("kornspur.changes.listeners", changes, ChangeHub::listeners)
        .description("Listeners of the live stream of standing changes")
        .register(meters);
    Gauge.builder("kornspur.standings", standings, StandingIndex::size)
        .description("Crops and lots with a standing")
        .register(meters);
  }

  void start(@Observes @Priority(TopicFollower.AFTER_THE_ENGINE) StartupEvent started) {
    feeds().forEach(TopicFollower::start);
  }

  void stop(@Observes @Priority(TopicFollower.BEFORE_THE_ENGINE) ShutdownEvent stopping) {
    feeds().forEach(TopicFollower::close);
  }

  /**
   * Every standing.
   *
   * @throws NotReady until the topic has been read to the end that it had at the start
   */
  public StandingIndex standings() {
    standingFeed.requireCaughtUp();
    return standings;
  }

  /**
   * Every refused input.
   *
   * @throws NotReady until the topic has been read to the end that it had at the start
   */
  public QuarantineIndex quarantine() {
    quarantineFeed.requireCaughtUp();
    return quarantine;
  }

  /**
   * The names of persons who signed.
   *
   * @throws NotReady until the topic has been read to the end that it had at the start
   */
  public SignerIndex signers() {
    signerFeed.requireCaughtUp();
    return signers;
  }

  public ChangeHub changes() {
    return changes;
  }

  /** The whole standing of a crop or lot. */
  public Optional<LotStanding> standing(Subject subject) {
    return standings().bytes(subject).map(bytes -> (LotStanding) engine.wire().decode(bytes));
  }

  /** A standing that the index gave out packed. */
  public LotStanding read(CompressedRecord standing) {
    return (LotStanding) engine.wire().decode(standing.unpacked());
  }

  /** A refused input, whole. */
  public Optional<QuarantineEntry> entry(String entryId) {
    return quarantine().bytes(entryId).map(bytes -> (QuarantineEntry) engine.wire().decode(bytes));
  }

  /**
   * Standings that were written and are not read here yet.
   *
   * @throws NotReady while it cannot be told, because the topic is read from its beginning
   */
  public long standingsWaiting() {
    standingFeed.requireCaughtUp();
    return standingFeed.lag();
  }

  @Override
  public List<TopicFollower> feeds() {
    return List.of(standingFeed, quarantineFeed, signerFeed);
  }

  private void receiveStanding(ConsumerRecord<String, byte[]> record) {
    if (record.value() == null) {
      standings.remove(Subject.parse(record.key()));
      return;
    }
    LotStanding standing = (LotStanding) engine.wire().decode(record.value());
    if (!standing.getSubject().equals(record.key())) {
      throw new IllegalArgumentException("The standing of another subject than its key names");
    }
    Optional<StandingRow> before =
        standings.put(standing, record.value(), Instant.ofEpochMilli(record.timestamp()));
    StandingRow after = standings.row(Subject.parse(standing.getSubject())).orElseThrow();
    changes.publish(record.partition(), record.offset(), StandingChange.of(before, after));
  }

  private void receiveSigner(ConsumerRecord<String, byte[]> record) {
    if (record.value() == null) {
      signers.forget(record.key());
    } else {
      signers.put((PersonName) engine.wire().decode(record.value()));
    }
  }

  private void receiveQuarantine(ConsumerRecord<String, byte[]> record) {
    if (record.value() == null) {
      quarantine.remove(record.key());
      return;
    }
    quarantine.put((QuarantineEntry) engine.wire().decode(record.value()), record.value());
  }

  private static void measure(TopicFollower feed, MeterRegistry meters) {
    Gauge.builder("kornspur.feed.lag", feed, TopicFollower::lag)
        .description("Records of a topic that the lists of this instance do not hold yet")
        .tag("topic", feed.topic())
        .register(meters);
    Gauge.builder("kornspur.feed.skipped", feed, TopicFollower::skipped)
        .description("Records of a topic that could not be read and were passed over")
        .tag("topic", feed.topic())
        .register(meters);
  }
}
