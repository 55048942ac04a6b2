package org.kornspur.api.view;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.util.Map;
import org.junit.jupiter.api.Test;

class AsOfTest {

  @Test
  void withoutNumbersItTellsNotHowMuchOfOthersHadComeIn() {
    AsOf few = AsOf.waiting(Instant.EPOCH, Map.of("kornspur.facts", 3L), 2).withoutNumbers();
    AsOf many = AsOf.waiting(Instant.EPOCH, Map.of("kornspur.standings", 400L), 0).withoutNumbers();

    assertThat(few).isEqualTo(many).isEqualTo(AsOf.unknown(Instant.EPOCH, "8").withoutNumbers());
    assertThat(few.recordsWaiting()).isNull();
    assertThat(few.heldByOpenTransaction()).isNull();
    assertThat(few.waitingByTopic()).isEmpty();
    assertThat(few.complete()).isFalse();
    assertThat(few.note()).doesNotContainPattern("[0-9]");
  }

  @Test
  void withoutNumbersItStillSaysThatNothingIsMissing() {
    AsOf all = AsOf.waiting(Instant.EPOCH, Map.of("kornspur.facts", 0L), 0);

    assertThat(all.withoutNumbers().complete()).isTrue();
    assertThat(all.withoutNumbers().note()).isEqualTo(all.note());
  }
}
