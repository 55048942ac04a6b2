package org.kornspur.api.readmodel;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import java.util.Set;
import org.apache.avro.specific.SpecificRecord;
import org.junit.jupiter.api.Test;
import org.kornspur.contract.Correction;
import org.kornspur.contract.FactHeader;
import org.kornspur.contract.GerminationReplicate;
import org.kornspur.contract.GerminationTest;
import org.kornspur.contract.MoistureTest;
import org.kornspur.contract.OtherSeedDetermination;
import org.kornspur.contract.PurityTest;
import org.kornspur.contract.Sampling;
import org.kornspur.contract.Withdrawal;
import org.kornspur.processors.statistics.Replicate;
import org.kornspur.processors.verdict.Gate;

/** Expected by hand from what the contract says of corrections and withdrawals. */
class SampleIndexTest {
  private static final Instant DAY = Instant.parse("2026-08-03T08:00:00Z");

  private static final List<SpecificRecord> FACTS =
      List.of(
          sampling("s-1", null, "L-1", "ONE"),
          moisture("m-1", "L-1", "ONE"),
          purity("p-1", "L-1", "ONE"),
          new Withdrawal(head("w-1", null), "p-1", "of another sample"),
          counted("c-1", "L-1", 3, null),
          sampling("s-2", null, "L-2", "ONE"),
          sampling("s-2b", "s-2", "L-2", "TWO"),
          moisture("m-2", "L-2", "ONE"),
          sampling("s-3", null, "L-3", null),
          moisture("m-3", "L-3", "ONE"));

  @Test
  void holdsWhatCountsInWhateverOrderItIsRead() {
    for (int seed = 0; seed < 50; seed++) {
      List<SpecificRecord> facts = new ArrayList<>(FACTS);
      Collections.shuffle(facts, new Random(seed));
      SampleIndex index = new SampleIndex();
      facts.forEach(index::put);
      facts.forEach(index::put);

      assertThat(index.of("ONE"))
          .as("shuffled with %d", seed)
          .containsExactly(
              new SampleIndex.Row(
                  "L-1",
                  "S-L-1",
                  DAY,
                  DAY.plusSeconds(3600),
                  Set.of(Gate.MOISTURE, Gate.ERGOT),
                  true));
      assertThat(index.of("TWO"))
          .singleElement()
          .satisfies(
              row -> {
                assertThat(row.lotId()).isEqualTo("L-2");
                assertThat(row.tested()).isEmpty();
              });
      assertThat(index.isTestOf("ONE", "m-1")).isTrue();
      assertThat(index.isTestOf("TWO", "m-1")).isFalse();
      assertThat(index.isTestOf("ONE", "s-1")).isFalse();
    }
  }

  @Test
  void theGerminationTestsOfALaboratoryAreThoseThatCountTheFirstFirst() {
    List<SpecificRecord> facts =
        new ArrayList<>(
            List.of(
                germination("g-2", null, "ONE", DAY.plusSeconds(60), 90, 96),
                germination("g-1", null, "ONE", DAY, 91, 92),
                germination("g-1b", "g-1", "ONE", DAY, 81, 92),
                germination("g-3", null, "TWO", DAY, 88, 89),
                germination("g-4", null, "ONE", DAY, 90, 101),
                germination("g-5", null, "ONE", DAY, 90, 90),
                new Withdrawal(head("w-5", null), "g-5", "of another sample")));
    for (int seed = 0; seed < 20; seed++) {
      Collections.shuffle(facts, new Random(seed));
      SampleIndex index = new SampleIndex();
      facts.forEach(index::put);

      assertThat(index.germinationsOf("ONE"))
          .extracting(SampleIndex.Germination::factId)
          .containsExactly("g-1b", "g-2");
      assertThat(index.germinationsOf("ONE").get(0).replicates())
          .containsExactly(new Replicate(100, 81), new Replicate(100, 92));
      assertThat(index.germinationTests().keySet()).containsExactly("ONE", "TWO");
    }
  }

  private static GerminationTest germination(
      String factId, String supersedes, String laboratoryId, Instant at, int one, int other) {
    FactHeader header = FactHeader.newBuilder(head(factId, supersedes)).setHappenedAt(at).build();
    return new GerminationTest(
        header,
        "L-1",
        "S-L-1",
        List.of(new GerminationReplicate(100, one), new GerminationReplicate(100, other)),
        laboratoryId,
        null,
        null,
        null);
  }

  @Test
  void aCountThatWasNotMadeIsNoTest() {
    assertThat(SampleIndex.testedBy(counted("c", "L", 0, null))).containsExactly(Gate.ERGOT);
    assertThat(SampleIndex.testedBy(counted("c", "L", null, 0))).containsExactly(Gate.OTHER_SEEDS);
    assertThat(SampleIndex.testedBy(counted("c", "L", 0, 0)))
        .containsExactlyInAnyOrder(Gate.ERGOT, Gate.OTHER_SEEDS);
  }

  private static FactHeader head(String factId, String supersedes) {
    return new FactHeader(
        factId,
        "p-01",
        DAY,
        DAY.plusSeconds(3600),
        "invented",
        supersedes == null ? null : new Correction(supersedes, "sent elsewhere"),
        null);
  }

  private static Sampling sampling(
      String factId, String supersedes, String lotId, String laboratoryId) {
    return new Sampling(
        head(factId, supersedes),
        "S-" + lotId,
        lotId,
        null,
        30,
        1000.0,
        1200.0,
        "INV-1",
        laboratoryId);
  }

  private static MoistureTest moisture(String factId, String lotId, String laboratoryId) {
    return new MoistureTest(head(factId, null), lotId, "S-" + lotId, 13.0, laboratoryId);
  }

  private static PurityTest purity(String factId, String lotId, String laboratoryId) {
    return new PurityTest(head(factId, null), lotId, "S-" + lotId, 119.0, 1.0, 0.0, laboratoryId);
  }

  private static OtherSeedDetermination counted(
      String factId, String lotId, Integer ergotBodies, Integer otherCereals) {
    return OtherSeedDetermination.newBuilder()
        .setHeader(head(factId, null))
        .setLotId(lotId)
        .setSampleId("S-" + lotId)
        .setSampleG(500)
        .setSampleNumber(1)
        .setErgotBodies(ergotBodies)
        .setOtherCereals(otherCereals)
        .setLaboratoryId("ONE")
        .build();
  }
}
