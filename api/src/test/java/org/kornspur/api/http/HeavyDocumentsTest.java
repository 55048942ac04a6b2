package org.kornspur.api.http;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import io.micrometer.core.instrument.simple.SimpleMeterRegistry;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicInteger;
import org.junit.jupiter.api.Test;
import org.kornspur.api.kafka.NotReady;

class HeavyDocumentsTest {
  private static final int AT_ONCE = 2;
  private static final int PLACES = AT_ONCE * 5;
  private static final int ASKED = 30;

  @Test
  void soManyAreMadeAtOnceAFewWaitAndTheRestComesAgain() throws Exception {
    HeavyDocuments documents = documents(Duration.ofMinutes(1));
    AtomicInteger made = new AtomicInteger();
    AtomicInteger most = new AtomicInteger();
    CountDownLatch refused = new CountDownLatch(ASKED - PLACES);
    ExecutorService threads = Executors.newFixedThreadPool(ASKED);
    try {
      List<Future<Boolean>> answers = new ArrayList<>();
      for (int i = 0; i < ASKED; i++) {
        answers.add(
            threads.submit(
                () -> {
                  try {
                    documents.begin();
                  } catch (NotReady full) {
                    assertThat(full.retryAfterSeconds().orElseThrow()).isPositive();
                    refused.countDown();
                    return false;
                  }
                  most.accumulateAndGet(made.incrementAndGet(), Math::max);
                  boolean allRefused = refused.await(1, TimeUnit.MINUTES);
                  made.decrementAndGet();
                  documents.end();
                  return allRefused;
                }));
      }
      int answered = 0;
      for (Future<Boolean> answer : answers) {
        answered += answer.get() ? 1 : 0;
      }
      assertThat(answered).isEqualTo(PLACES);
      assertThat(most.get()).isEqualTo(AT_ONCE);
    } finally {
      threads.shutdownNow();
    }
  }

  @Test
  void whoWaitsTooLongIsToldToComeAgainAndTakesNoPlace() {
    HeavyDocuments documents = documents(Duration.ZERO);
    documents.begin();
    documents.begin();
    for (int i = 0; i < 2 * PLACES; i++) {
      assertThatThrownBy(documents::begin)
          .isInstanceOf(NotReady.class)
          .hasMessageContaining(AT_ONCE + " at a time");
    }
    documents.end();
    documents.begin();
  }

  @Test
  void howManyDependsOnTheHeap() {
    assertThat(HeavyDocuments.atOnce(128L << 20)).isEqualTo(1);
    assertThat(HeavyDocuments.atOnce(1L << 30)).isEqualTo(2);
    assertThat(HeavyDocuments.atOnce(4L << 30)).isGreaterThan(HeavyDocuments.atOnce(1L << 30));
    assertThat(HeavyDocuments.atOnce(Long.MAX_VALUE)).isLessThanOrEqualTo(64);
  }

  private static HeavyDocuments documents(Duration longestWait) {
    return new HeavyDocuments(AT_ONCE, longestWait, new SimpleMeterRegistry());
  }
}
