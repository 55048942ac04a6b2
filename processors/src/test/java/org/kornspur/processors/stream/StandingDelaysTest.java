package org.kornspur.processors.stream;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.kornspur.ingest.contract.Subject;

/** Times are invented. */
class StandingDelaysTest {
  private static final Subject LOT = Subject.lot("R26-0001");

  private final List<Duration> told = new ArrayList<>();
  private final StandingDelays.OfTask delays =
      StandingDelays.ofTask(new StandingDelays(told::add).settings());

  @Test
  void tellsOfTheOldestFactOnce() {
    delays.filed(LOT, StandingDelays.along(2_000));
    delays.filed(LOT, StandingDelays.along(1_000));

    delays.judge(LOT, () -> {}, () -> 4_000);
    delays.judge(LOT, () -> {}, () -> 5_000);

    assertThat(told).containsExactly(Duration.ofSeconds(3));
  }

  @Test
  void forgetsFactsOfADossierWhoseJudgingBreaks() {
    delays.filed(LOT, StandingDelays.along(1_000));

    assertThatThrownBy(
            () ->
                delays.judge(
                    LOT,
                    () -> {
                      throw new IllegalStateException("broken");
                    },
                    () -> 2_000))
        .hasMessage("broken");
    delays.judge(LOT, () -> {}, () -> 9_000);

    assertThat(told).isEmpty();
  }
}
