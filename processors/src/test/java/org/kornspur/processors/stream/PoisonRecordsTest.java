package org.kornspur.processors.stream;

import static org.assertj.core.api.Assertions.assertThat;
import static org.kornspur.processors.stream.InventedFacts.crop;
import static org.kornspur.processors.stream.InventedFacts.harvest;
import static org.kornspur.processors.stream.InventedFacts.head;
import static org.kornspur.processors.stream.InventedFacts.lot;
import static org.kornspur.processors.stream.InventedFacts.postControl;
import static org.kornspur.processors.stream.InventedFacts.source;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import org.apache.avro.specific.SpecificRecord;
import org.apache.kafka.common.errors.TimeoutException;
import org.apache.kafka.common.header.Headers;
import org.apache.kafka.common.header.internals.RecordHeaders;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.kornspur.contract.QuarantineEntry;
import org.kornspur.ingest.chain.ChainLink;
import org.kornspur.ingest.chain.LogRecord;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.intake.Problem;
import org.kornspur.ingest.intake.QuarantineEntries;
import org.kornspur.ingest.problem.Given;
import org.kornspur.ingest.problem.InputProblem;
import org.kornspur.ingest.problem.RecordProblem;
import org.kornspur.ingest.publish.RecordSize;
import org.kornspur.ingest.registry.RegistryUnreachable;
import org.kornspur.ingest.statement.Coded;
import org.kornspur.processors.finding.Advice;
import org.kornspur.processors.finding.BasisFinding;
import org.kornspur.processors.ground.IsolationCells;
import org.kornspur.processors.ground.Outline;
import org.kornspur.processors.judging.Judge;
import org.kornspur.standing.LotStanding;
import org.kornspur.standing.StandingState;
import org.kornspur.standing.VerdictState;

/**
 * Records that nothing can be made of, on every topic that the topology reads: none stops it, each
 * is counted, and none makes a standing better.
 *
 * <p>{@code -Dhostile.records=20000} makes the long run; {@code -Dhostile.seed} repeats one.
 */
class PoisonRecordsTest {
  private static final int RECORDS = Integer.getInteger("hostile.records", 3_000);
  private static final long SEED = Long.getLong("hostile.seed", 20_261_128L);
  private static final List<Topics> READ =
      List.of(
          Topics.FACTS,
          Topics.BY_SUBJECT,
          Topics.REVOCATIONS,
          Topics.REPORTS,
          Topics.PLOTS,
          Topics.EDGES);

  private final DrivenTopology topology = new DrivenTopology();

  @AfterEach
  void close() {
    topology.close();
  }

  @Test
  void noRecordOfAnyTopicStopsTheStreamOrMakesAStandingBetter() {
    SpecificRecord[] production = {
      crop("f1", "C1", "M-1", 0),
      source("f2", "S1", 300),
      harvest(head("f3", 200), "C1", "L1", 900),
      lot("f4", "L2", 100),
      postControl(head("f5", 300), "L2", false)
    };
    topology.accept(production);
    Map<String, LotStanding> before = topology.standings();
    assertThat(before).containsOnlyKeys("crop:C1", "lot:L1", "lot:L2");
    assertThat(before.values())
        .extracting(LotStanding::getState)
        .containsOnly(StandingState.NOT_FIT);
    List<byte[]> seeds = new ArrayList<>();
    for (SpecificRecord fact : production) {
      seeds.add(topology.wire.encode(Topics.FACTS.topicName(), fact));
    }
    HostileRecords hostile = new HostileRecords(new Random(SEED), seeds);

    for (int i = 0; i < RECORDS; i++) {
      Topics topic = READ.get(i % READ.size());
      HostileRecords.Hostile record = hostile.next();
      // the store of the pedigree takes no record without a time: its topic bears the broker's
      long timestamp = topic == Topics.EDGES ? Math.max(0, record.timestamp()) : record.timestamp();
      topology.pipe(topic, timestamp, record.key(), record.value(), record.headers());
    }

    assertThat(topology.skipped.byTopic())
        .containsKeys(READ.stream().skip(1).map(Topics::topicName).toArray(String[]::new));
    assertThat(topology.quarantine()).isNotEmpty();
    assertThat(topology.standings().values())
        .as("each was not fit; seed %d", SEED)
        .filteredOn(standing -> before.containsKey(standing.getSubject()))
        .hasSize(3)
        .extracting(LotStanding::getState)
        .containsOnly(StandingState.NOT_FIT);
    topology.accept(lot("good", "L-AFTER", 500));
    assertThat(topology.standing(Subject.lot("L-AFTER")).getHeldKg()).isEqualTo(500);
    assertThat(topology.newLinks()).isNotEmpty();
  }

  @ParameterizedTest
  @ValueSource(
      longs = {-1, Long.MIN_VALUE, Long.MAX_VALUE, 0, 600_000_000_000L, 4_102_444_800_000L})
  void aFactWithAnImpossibleTimeIsTakenByWhatItSays(long timestamp) {
    byte[] key = "f1".getBytes(StandardCharsets.UTF_8);
    byte[] value = topology.wire.encode(Topics.FACTS.topicName(), lot("f1", "L1", 500));
    Headers headers =
        new RecordHeaders().add("logged-timestamp", new byte[] {0, 0, 0, 0, 0, 0, 0, 5});

    topology.pipe(Topics.FACTS, timestamp, key, value, headers);

    assertThat(topology.standings()).containsKey("lot:L1");
    assertThat(topology.quarantine()).isEmpty();
    LogRecord asKept =
        new LogRecord(
            0,
            0,
            timestamp,
            key,
            value,
            List.of(new LogRecord.Header("logged-timestamp", new byte[] {0, 0, 0, 0, 0, 0, 0, 5})));
    assertThat(topology.newLinks())
        .singleElement()
        .extracting(ChainLink::content)
        .as("the link is over the record as the log keeps it")
        .isEqualTo(asKept.content());
  }

  @Test
  void whatIsTooLargeForTheQuarantineIsKeptByHashSizeAndBeginning() {
    byte[] value = new byte[60 * 1024 * 1024];
    value[0] = 7;
    topology.pipe("large", value);

    QuarantineEntry entry = topology.quarantine().get(0);
    assertThat(entry.getEntryId())
        .isEqualTo(QuarantineEntries.entryId("large".getBytes(StandardCharsets.UTF_8), value));
    assertThat(entry.getWholeBytes()).isEqualTo(value.length);
    assertThat(entry.getOriginalValue().remaining()).isBetween(1_000, 10_000);
    assertThat(entry.getOriginalValue().get(0)).isEqualTo((byte) 7);
    Problem tooLarge = Problem.of(entry.getProblems().get(0));
    assertThat(tooLarge.value()).isEqualTo(new Given.Bytes(62_914_565).coded());
    assertThat(tooLarge.reason())
        .isEqualTo(new RecordProblem.TooLarge(RecordSize.MOST_FACT_BYTES).coded());
    Problem keptInPart = Problem.of(entry.getProblems().get(1));
    assertThat(keptInPart.value().code()).isEqualTo(Coded.codeOf(Given.HashedBytes.class));
    assertThat(keptInPart.reason())
        .isEqualTo(
            new InputProblem.KeptInPart(
                    QuarantineEntries.MOST_WHOLE_BYTES,
                    entry.getOriginalValue().remaining(),
                    "kornspur.facts partition 0 offset 0")
                .coded());
    topology.accept(lot("f1", "L1", 500));
    assertThat(topology.standings()).containsKey("lot:L1");
  }

  @Test
  void aStoredFactThatCannotBeReadLeavesEvidenceOwedAndCondemnsNoLess() {
    topology.accept(
        lot("f1", "L1", 500), lot("f2", "L2", 500), postControl(head("f3", 300), "L2", false));
    assertThat(topology.standing(Subject.lot("L1")).getState()).isEqualTo(StandingState.FIT);
    topology.spoil(StateStores.DOSSIER_FACTS, "lot:L1|spoiled", new byte[] {1, 2, 3});
    topology.spoil(StateStores.DOSSIER_FACTS, "lot:L2|spoiled", new byte[] {1, 2, 3});
    topology.accept(postControl(head("f4", 301), "L1", true));
    topology.accept(postControl(head("f5", 301), "L2", true));

    LotStanding standing = topology.standing(Subject.lot("L1"));
    assertThat(standing.getState()).isEqualTo(StandingState.EVIDENCE_OWED);
    assertThat(standing.getVerdicts())
        .filteredOn(verdict -> verdict.getState() == VerdictState.OWED)
        .singleElement()
        .satisfies(
            owed -> {
              assertThat(StatementRecords.read(owed.getFindings()))
                  .containsExactly(
                      new BasisFinding.Unreadable(List.of("lot:L1|spoiled"), Optional.empty())
                          .coded());
              assertThat(StatementRecords.read(owed.getAdvice()))
                  .containsExactly(new Advice.ReadAgain().coded());
            });
    assertThat(topology.standing(Subject.lot("L2")).getState()).isEqualTo(StandingState.NOT_FIT);
  }

  @Test
  void aStoredReportThatCannotBeReadLeavesEvidenceOwed() {
    topology.accept(lot("f1", "L1", 500));
    topology.spoil(
        StateStores.DOSSIER_REPORTS, "lot:L1|lot:P1", "{}".getBytes(StandardCharsets.UTF_8));
    topology.accept(postControl(head("f2", 300), "L1", true));

    assertThat(topology.standing(Subject.lot("L1")).getState())
        .isEqualTo(StandingState.EVIDENCE_OWED);
  }

  @Test
  void aDossierThatCannotBeJudgedKeepsNoEarlierStanding() {
    boolean[] broken = {false};
    Judge judge =
        new Judge(
            id -> {
              if (broken[0]) {
                throw new IllegalStateException("a fault in the rules");
              }
              return Optional.of(new NoLimits(id));
            },
            List.of());
    try (DrivenTopology faulty = new DrivenTopology(judge)) {
      faulty.accept(lot("f1", "L1", 500));
      assertThat(faulty.standing(Subject.lot("L1")).getState()).isEqualTo(StandingState.FIT);
      broken[0] = true;
      faulty.accept(postControl(head("f2", 300), "L1", false));

      assertThat(faulty.standing(Subject.lot("L1")).getState())
          .isEqualTo(StandingState.EVIDENCE_OWED);
    }
  }

  @Test
  void aPlotThatCannotBePlacedLeavesTheOthersOfItsCell() {
    topology.accept(crop("f1", "C1", "M-1", 0));
    String cell =
        IsolationCells.cellsOf(Outline.of(crop("f1", "C1", "M-1", 0).getOutline()), 2024)
            .iterator()
            .next();
    for (String plot :
        List.of(
            "{}",
            "{\"subject\":\"source:X\",\"plot\":{\"subject\":\"source:X\",\"cropYear\":2024,"
                + "\"outline\":[{\"lon\":1e9,\"lat\":1e9}],\"factId\":\"x\"}}")) {
      topology.pipe(
          Topics.PLOTS,
          1,
          cell.getBytes(StandardCharsets.UTF_8),
          plot.getBytes(StandardCharsets.UTF_8),
          new RecordHeaders());
    }
    topology.accept(source("f2", "S1", 300));

    assertThat(topology.standing(Subject.crop("C1")).getState()).isEqualTo(StandingState.NOT_FIT);
    assertThat(topology.skipped.byTopic()).containsEntry(Topics.PLOTS.topicName(), 2L);
  }

  @Test
  void whatFailsOutsideTheRecordIsTriedAgain() {
    assertThat(PoisonRecords.isNoFaultOfTheRecord(new RegistryUnreachable("away", null))).isTrue();
    assertThat(
            PoisonRecords.isNoFaultOfTheRecord(
                new IllegalStateException(new TimeoutException("brokers are away"))))
        .isTrue();
    assertThat(PoisonRecords.isNoFaultOfTheRecord(new IllegalArgumentException("no subject")))
        .isFalse();
  }
}
