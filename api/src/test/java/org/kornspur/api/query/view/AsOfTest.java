package org.kornspur.api.query.view;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.kornspur.api.text.EnglishWords;
import org.kornspur.api.text.ReaderWords;

class AsOfTest {
  private static final ReaderWords WORDS = EnglishWords.words();

  @Test
  void withoutNumbersItTellsNotHowMuchOfOthersHadComeIn() {
    AsOf few =
        AsOf.waiting(Instant.EPOCH, Map.of("kornspur.facts", 3L), 2, WORDS).withoutNumbers(WORDS);
    AsOf many =
        AsOf.waiting(Instant.EPOCH, Map.of("kornspur.standings", 400L), 0, WORDS)
            .withoutNumbers(WORDS);

    assertThat(few)
        .isEqualTo(many)
        .isEqualTo(AsOf.unknown(Instant.EPOCH, WORDS).withoutNumbers(WORDS));
    assertThat(few.recordsWaiting()).isNull();
    assertThat(few.heldByOpenTransaction()).isNull();
    assertThat(few.waitingByTopic()).isEmpty();
    assertThat(few.complete()).isFalse();
    assertThat(few.note()).doesNotContainPattern("[0-9]");
  }

  @Test
  void withoutNumbersItStillSaysThatNothingIsMissing() {
    AsOf all = AsOf.waiting(Instant.EPOCH, Map.of("kornspur.facts", 0L), 0, WORDS);

    assertThat(all.withoutNumbers(WORDS).complete()).isTrue();
    assertThat(all.withoutNumbers(WORDS).note()).isEqualTo(all.note());
  }
}
