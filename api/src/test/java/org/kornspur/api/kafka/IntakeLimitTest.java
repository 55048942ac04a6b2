package org.kornspur.api.kafka;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatCode;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.util.concurrent.atomic.AtomicLong;
import org.junit.jupiter.api.Test;
import org.kornspur.api.problem.NotReadyDetail;

class IntakeLimitTest {
  private static final long MOST = 100;
  private static final long LEAST_FREE = 50_000_000;

  private final AtomicLong waiting = new AtomicLong();
  private final AtomicLong free = new AtomicLong(LEAST_FREE);
  private final IntakeLimit limit = new IntakeLimit(MOST, waiting::get, LEAST_FREE, free::get);

  @Test
  void thereIsRoomUpToTheLimits() {
    waiting.set(MOST);
    assertThatCode(limit::requireRoom).doesNotThrowAnyException();
  }

  @Test
  void moreThanMayWaitIsTurnedAwayUntilItIsJudged() {
    waiting.set(MOST + 1);
    NotReady refused = refused();
    assertThat(refused.document().status()).isEqualTo(429);
    assertThat(refused.retryAfterSeconds()).isPresent();
    assertThat(refused.detail()).isEqualTo(new NotReadyDetail.TooManyWaiting(MOST + 1, MOST));
    assertThat(refused.getMessage()).contains("101 records wait").contains("nothing");

    waiting.set(0);
    assertThatCode(limit::requireRoom).doesNotThrowAnyException();
  }

  @Test
  void aDiskThatIsNearlyFullTakesNothing() {
    free.set(LEAST_FREE - 1);
    NotReady refused = refused();
    assertThat(refused.document().status()).isEqualTo(503);
    assertThat(refused.retryAfterSeconds()).isPresent();
    assertThat(refused.getMessage()).contains("49 MB").contains("50 MB");
  }

  @Test
  void brokersThatDoNotTellWhatWaitsAreNoReasonToRefuse() {
    IntakeLimit untold =
        new IntakeLimit(
            MOST,
            () -> {
              throw new NotReady(new NotReadyDetail.LagUnknown(), 1);
            },
            LEAST_FREE,
            free::get);
    assertThatCode(untold::requireRoom).doesNotThrowAnyException();
  }

  @Test
  void whoLoadsAFolderWaitsForRoom() throws InterruptedException {
    AtomicLong asked = new AtomicLong();
    IntakeLimit falling =
        new IntakeLimit(MOST, () -> MOST + 2 - asked.getAndIncrement(), LEAST_FREE, free::get);
    falling.awaitRoom();
    assertThat(asked).hasValue(3);
  }

  private NotReady refused() {
    return catchThrowableOfType(NotReady.class, limit::requireRoom);
  }
}
