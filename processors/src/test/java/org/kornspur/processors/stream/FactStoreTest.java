package org.kornspur.processors.stream;

import static org.assertj.core.api.Assertions.assertThat;
import static org.kornspur.processors.stream.InventedFacts.lot;
import static org.kornspur.processors.stream.InventedFacts.withdrawal;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import java.util.stream.IntStream;
import org.apache.avro.specific.SpecificRecord;
import org.junit.jupiter.api.Test;
import org.kornspur.ingest.contract.Subject;

/** A fact that is taken back again and again. */
class FactStoreTest {
  private static final int TIMES = 3 * RegisterEntry.MOST_REVOCATIONS;

  @Test
  void theEntryOfAFactStaysSmallHoweverOftenItIsTakenBack() {
    try (DrivenTopology topology = new DrivenTopology()) {
      topology.accept(lot("f1", "L1", 500));
      topology.accept(withdrawals());

      assertThat(topology.registered("f1").revokedBy())
          .hasSize(RegisterEntry.MOST_REVOCATIONS)
          .containsKeys("w1000", "w1049");
      assertThat(topology.registered("f1").subjects()).contains("lot:L1");
    }
  }

  @Test
  void everyWithdrawalReachesTheDossierWhicheverCameFirst() {
    List<SpecificRecord> facts = new ArrayList<>(List.of(withdrawals()));
    facts.add(lot("f1", "L1", 500));
    assertThat(revocationsOf(facts)).hasSize(TIMES);

    for (int seed = 0; seed < 5; seed++) {
      Collections.shuffle(facts, new Random(seed));
      assertThat(revocationsOf(facts)).as("seed " + seed).hasSize(TIMES);
    }
  }

  private static List<String> revocationsOf(List<SpecificRecord> facts) {
    try (DrivenTopology topology = new DrivenTopology()) {
      topology.accept(facts.toArray(SpecificRecord[]::new));
      return topology.revocationsOf(Subject.lot("L1"));
    }
  }

  private static SpecificRecord[] withdrawals() {
    return IntStream.range(1000, 1000 + TIMES)
        .mapToObj(number -> withdrawal("w" + number, 10, "f1"))
        .toArray(SpecificRecord[]::new);
  }
}
