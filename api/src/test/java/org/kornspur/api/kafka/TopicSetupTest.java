package org.kornspur.api.kafka;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.kornspur.processors.stream.Topics;

/**
 * Nothing that was recorded is dropped. Meaning of the settings: Apache Kafka Documentation, "Topic
 * Configs": cleanup.policy delete drops old segments by retention.ms and retention.bytes, and -1 is
 * no limit; compact keeps the last value of each key. From memory.
 */
class TopicSetupTest {

  @Test
  void factsAndTheirChainAreKeptForEverAndNeverCompacted() {
    for (Topics topic : List.of(Topics.FACTS, Topics.CHAIN, Topics.CHECKPOINTS)) {
      assertThat(TopicSetup.configs(topic, (short) 1)).containsEntry("cleanup.policy", "delete");
    }
  }

  @Test
  void noTopicDropsAnythingByAgeOrSize() {
    for (Topics topic : Topics.all()) {
      assertThat(TopicSetup.configs(topic, (short) 3))
          .containsEntry("retention.ms", "-1")
          .containsEntry("retention.bytes", "-1");
    }
  }

  /**
   * Who goes on with the standings where it stopped a week ago must hear what was taken out. Same
   * source: delete.retention.ms is how long a tombstone stays after it was compacted.
   */
  @Test
  void thatAStandingWasTakenOutIsToldForAWeek() {
    assertThat(
            Long.parseLong(
                TopicSetup.configs(Topics.STANDINGS, (short) 1).get("delete.retention.ms")))
        .isGreaterThan(TimeUnit.DAYS.toMillis(7));
    assertThat(TopicSetup.configs(Topics.PEOPLE, (short) 1))
        .doesNotContainKey("delete.retention.ms");
  }

  @Test
  void namesOfPersonsCanBeForgottenWithinDays() {
    Map<String, String> people = TopicSetup.configs(Topics.PEOPLE, (short) 1);

    assertThat(people).containsEntry("cleanup.policy", "compact");
    assertThat(Long.parseLong(people.get("max.compaction.lag.ms"))).isLessThanOrEqualTo(86_400_000);
    assertThat(Long.parseLong(people.get("segment.ms"))).isLessThanOrEqualTo(86_400_000);
  }
}
