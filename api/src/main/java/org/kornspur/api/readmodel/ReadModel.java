package org.kornspur.api.readmodel;

import io.micrometer.core.instrument.Gauge;
import io.micrometer.core.instrument.MeterRegistry;
import io.quarkus.runtime.ShutdownDelayInitiatedEvent;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Observes;
import jakarta.inject.Inject;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;
import org.apache.kafka.clients.consumer.ConsumerRecord;
import org.kornspur.api.kafka.EngineSettings;
import org.kornspur.api.kafka.NotReady;
import org.kornspur.api.kafka.ProcessorsClient;
import org.kornspur.contract.CauseNote;
import org.kornspur.contract.PersonName;
import org.kornspur.contract.PlanVersion;
import org.kornspur.contract.QuarantineEntry;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.stream.Topics;
import org.kornspur.standing.LotStanding;

/** Keeps the indexes in step with their topics, and gives them out once they are complete. */
@ApplicationScoped
public class ReadModel implements ReadsTopics {
  private static final int KEPT_CHANGES = 10_000;

  private final ProcessorsClient processors;
  private final StandingIndex standings = new StandingIndex();
  private final QuarantineIndex quarantine = new QuarantineIndex();
  private final ChangeHub changes = new ChangeHub(KEPT_CHANGES);
  private final Optional<StandingSnapshotFile> memory;
  private final TopicFollower standingFollower;
  private final TopicFollower quarantineFollower;
  private final Map<String, PersonName> signers = new ConcurrentHashMap<>();
  private final TopicFollower signerFollower;
  private final PlanIndex plans = new PlanIndex();
  private final TopicFollower planFollower;
  private final CauseNotes causeNotes = new CauseNotes();
  private final TopicFollower causeNoteFollower;

  @Inject
  public ReadModel(ProcessorsClient processors, MeterRegistry meters, EngineSettings settings) {
    this.processors = processors;
    this.memory =
        settings.bootstrapServers().isPresent()
            ? Optional.empty()
            : Optional.of(
                new StandingSnapshotFile(
                    settings.dataFolder().resolve(StandingSnapshotFile.FOLDER),
                    standings,
                    this::read,
                    changes::beginAfter));
    this.standingFollower =
        new TopicFollower(
                "standings",
                Topics.STANDINGS.topicName(),
                processors,
                this::receiveStanding,
                this::forgetStandings)
            .goingOnAfter(memory.<TopicSnapshot>map(kept -> kept).orElse(TopicSnapshot.NONE));
    this.quarantineFollower =
        new TopicFollower(
            "quarantine",
            Topics.QUARANTINE.topicName(),
            processors,
            this::receiveQuarantine,
            quarantine::clear);
    this.signerFollower =
        new TopicFollower(
            "signers", Topics.PEOPLE.topicName(), processors, this::receiveSigner, signers::clear);
    this.planFollower =
        new TopicFollower(
            "plans", Topics.PLANS.topicName(), processors, this::receivePlan, plans::clear);
    this.causeNoteFollower =
        new TopicFollower(
            "cause-notes",
            Topics.CAUSE_NOTES.topicName(),
            processors,
            this::receiveCauseNote,
            causeNotes::clear);
    followers().forEach(follower -> measure(follower, meters));
    Gauge.builder("kornspur.changes.listeners", changes, ChangeHub::listeners)
        .description("Listeners of the live stream of standing changes")
        .register(meters);
    Gauge.builder("kornspur.standings", standings, StandingIndex::size)
        .description("Crops and lots with a standing")
        .register(meters);
  }

  /**
   * Every standing.
   *
   * @throws NotReady until the topic has been read to the end that it had at the start
   */
  public StandingIndex standings() {
    standingFollower.requireCaughtUp();
    return standings;
  }

  /**
   * Every refused input.
   *
   * @throws NotReady until the topic has been read to the end that it had at the start
   */
  public QuarantineIndex quarantine() {
    quarantineFollower.requireCaughtUp();
    return quarantine;
  }

  /**
   * The names of a person; empty for one who never signed or was forgotten.
   *
   * @throws NotReady until the topic has been read to the end that it had at the start
   */
  public Optional<PersonName> signer(String personId) {
    signerFollower.requireCaughtUp();
    return Optional.ofNullable(signers.get(personId));
  }

  /**
   * Every version of every plan.
   *
   * @throws NotReady until the topic has been read to the end that it had at the start
   */
  public PlanIndex plans() {
    planFollower.requireCaughtUp();
    return plans;
  }

  /**
   * What persons did about causes.
   *
   * @throws NotReady until the topic has been read to the end that it had at the start
   */
  public CauseNotes causeNotes() {
    causeNoteFollower.requireCaughtUp();
    return causeNotes;
  }

  /** The live stream never ends by itself, and would keep the program from ending in order. */
  void endStreams(@Observes ShutdownDelayInitiatedEvent leaving) {
    changes.close();
  }

  public ChangeHub changes() {
    return changes;
  }

  /** The whole standing of a crop or lot. */
  public Optional<LotStanding> standing(Subject subject) {
    return standings().bytes(subject).map(bytes -> (LotStanding) processors.wire().decode(bytes));
  }

  /** A standing that the index gave out packed. */
  public LotStanding read(CompressedRecord standing) {
    return (LotStanding) processors.wire().decode(standing.unpacked());
  }

  /** A refused input, whole. */
  public Optional<QuarantineEntry> entry(String entryId) {
    return quarantine()
        .bytes(entryId)
        .map(bytes -> (QuarantineEntry) processors.wire().decode(bytes));
  }

  /**
   * Standings that were written and are not read here yet.
   *
   * @throws NotReady while it cannot be told, because the topic is read from its beginning
   */
  public long standingsWaiting() {
    standingFollower.requireCaughtUp();
    return standingFollower.lag();
  }

  @Override
  public List<TopicFollower> followers() {
    return List.of(
        standingFollower, quarantineFollower, signerFollower, planFollower, causeNoteFollower);
  }

  @Override
  public void stopped() {
    if (!standingFollower.isAlive() && standingFollower.isCaughtUp()) {
      memory.ifPresent(StandingSnapshotFile::write);
    }
  }

  private void forgetStandings() {
    memory.ifPresent(StandingSnapshotFile::forget);
    standings.clear();
  }

  private void receiveStanding(ConsumerRecord<String, byte[]> record) {
    takeStanding(record);
    memory.ifPresent(kept -> kept.taken(record, standingFollower.isCaughtUp()));
  }

  private void takeStanding(ConsumerRecord<String, byte[]> record) {
    if (record.value() == null) {
      standings.remove(Subject.parse(record.key()));
      return;
    }
    LotStanding standing = (LotStanding) processors.wire().decode(record.value());
    if (!standing.getSubject().equals(record.key())) {
      throw new IllegalArgumentException("The standing of another subject than its key names");
    }
    Optional<StandingIndexRow> before =
        standings.put(standing, record.value(), Instant.ofEpochMilli(record.timestamp()));
    StandingIndexRow after = standings.row(Subject.parse(standing.getSubject())).orElseThrow();
    changes.publish(record.partition(), record.offset(), new StandingChange(before, after));
  }

  private void receiveSigner(ConsumerRecord<String, byte[]> record) {
    if (record.value() == null) {
      signers.remove(record.key());
    } else {
      PersonName person = (PersonName) processors.wire().decode(record.value());
      signers.put(person.getPersonId(), person);
    }
  }

  private void receivePlan(ConsumerRecord<String, byte[]> record) {
    if (record.value() != null) {
      plans.put((PlanVersion) processors.wire().decode(record.value()));
    }
  }

  private void receiveCauseNote(ConsumerRecord<String, byte[]> record) {
    if (record.value() != null) {
      causeNotes.put((CauseNote) processors.wire().decode(record.value()));
    }
  }

  private void receiveQuarantine(ConsumerRecord<String, byte[]> record) {
    if (record.value() == null) {
      quarantine.remove(record.key());
      return;
    }
    quarantine.put((QuarantineEntry) processors.wire().decode(record.value()), record.value());
  }

  private static void measure(TopicFollower follower, MeterRegistry meters) {
    Gauge.builder("kornspur.feed.lag", follower, TopicFollower::lag)
        .description("Records of a topic that the lists of this instance do not hold yet")
        .tag("topic", follower.topic())
        .register(meters);
    Gauge.builder("kornspur.feed.skipped", follower, TopicFollower::skipped)
        .description("Records of a topic that could not be read and were passed over")
        .tag("topic", follower.topic())
        .register(meters);
  }
}
