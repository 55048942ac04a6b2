package org.kornspur.api.rest;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.kornspur.api.kafka.NotReady;

class StreamReaderLimitTest {

  @Test
  void onePersonCannotTakeThePlacesOfAll() {
    StreamReaderLimit places = new StreamReaderLimit(3, 2);
    StreamReaderLimit.Place first = places.take("a");
    places.take("a");

    assertThatThrownBy(() -> places.take("a"))
        .isInstanceOf(NotReady.class)
        .hasMessageContaining("2 times at once");
    places.take("b");
    assertThatThrownBy(() -> places.take("c"))
        .isInstanceOf(NotReady.class)
        .hasMessageContaining("3 readers");

    first.leave();
    first.leave();
    places.take("c");
    assertThatThrownBy(() -> places.take("b")).isInstanceOf(NotReady.class);
  }

  @Test
  void aPlaceThatNobodyBeganToUseIsGivenBackAndOneInUseIsKept() {
    StreamReaderLimit places = new StreamReaderLimit(1, 1);
    StreamReaderLimit.Place unused = places.take("a");
    unused.leaveUnused();
    assertThat(unused.use()).isFalse();

    StreamReaderLimit.Place used = places.take("a");
    assertThat(used.use()).isTrue();
    used.leaveUnused();
    assertThatThrownBy(() -> places.take("a")).isInstanceOf(NotReady.class);
    used.leave();
    places.take("a");
  }

  @Test
  void ofManyWhoComeAtOnceNoMoreAreLetInThanThereArePlaces() throws Exception {
    StreamReaderLimit places = new StreamReaderLimit(50, 10);
    ExecutorService threads = Executors.newFixedThreadPool(8);
    try {
      Callable<Boolean> comer =
          () -> {
            try {
              places.take("a");
              return true;
            } catch (NotReady full) {
              return false;
            }
          };
      int letIn = 0;
      List<Callable<Boolean>> comers = Stream.generate(() -> comer).limit(1000).toList();
      for (Future<Boolean> came : threads.invokeAll(comers)) {
        letIn += came.get() ? 1 : 0;
      }
      assertThat(letIn).isEqualTo(10);
    } finally {
      threads.shutdownNow();
    }
  }
}
