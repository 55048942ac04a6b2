package org.kornspur.api.http;

import io.micrometer.core.instrument.Counter;
import io.micrometer.core.instrument.Gauge;
import io.micrometer.core.instrument.MeterRegistry;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.io.IOException;
import java.time.Duration;
import java.util.concurrent.Semaphore;
import java.util.concurrent.TimeUnit;
import org.kornspur.api.kafka.NotReady;
import org.kornspur.api.problem.NotReadyDetail;

/**
 * Bounds how many heavy documents are made at once, by the memory that there is: so many of the
 * largest as fit into half of the heap. A few more wait for their turn, in the order in which they
 * came; who comes when all places are taken is told to come again.
 *
 * <p>The bulkhead of MicroProfile Fault Tolerance has a waiting line for asynchronous methods only
 * (section 6.2), so it is two semaphores here.
 */
@ApplicationScoped
public class HeavyDocuments {

  /**
   * Most bytes of the heap that one document takes while it is made. A dossier of 166 facts and 300
   * kB of text was measured to take between 64 and 96 MB, nearly all of it for the layout; {@code
   * PdfRenderer} and {@code DossierPaper} bound the text.
   */
  public static final long BYTES_OF_ONE = 200L << 20;

  private static final int SHARE_OF_HEAP = 2;
  private static final int WAITING_FOR_EACH = 4;
  private static final Duration LONGEST_WAIT = Duration.ofSeconds(20);
  private static final int RETRY_AFTER_SECONDS = 10;

  private final int atOnce;
  private final Duration longestWait;
  private final Semaphore places;
  private final Semaphore turns;
  private final Counter refused;

  @Inject
  public HeavyDocuments(MeterRegistry meters) {
    this(atOnce(Runtime.getRuntime().maxMemory()), LONGEST_WAIT, meters);
  }

  HeavyDocuments(int atOnce, Duration longestWait, MeterRegistry meters) {
    this.atOnce = atOnce;
    this.longestWait = longestWait;
    this.turns = new Semaphore(atOnce, true);
    this.places = new Semaphore(atOnce * (1 + WAITING_FOR_EACH));
    this.refused =
        Counter.builder("kornspur.documents.refused")
            .description(
                "Heavy documents that were refused because too many were asked for at once")
            .register(meters);
    Gauge.builder("kornspur.documents.made", turns, free -> atOnce - free.availablePermits())
        .description("Heavy documents that are being made")
        .register(meters);
  }

  /** How many fit into a heap of so many bytes. */
  static int atOnce(long heapBytes) {
    return (int) Math.max(1, Math.min(64, heapBytes / SHARE_OF_HEAP / BYTES_OF_ONE));
  }

  /**
   * Waits for a turn; {@link #end} gives it back.
   *
   * @throws NotReady where too many wait already, or the turn does not come in time
   */
  void begin() {
    if (!places.tryAcquire()) {
      throw refusal();
    }
    boolean begun = false;
    try {
      begun = turns.tryAcquire(longestWait.toMillis(), TimeUnit.MILLISECONDS);
    } catch (InterruptedException stopping) {
      Thread.currentThread().interrupt();
    } finally {
      if (!begun) {
        places.release();
      }
    }
    if (!begun) {
      throw refusal();
    }
  }

  void end() {
    turns.release();
    places.release();
  }

  /** Work that makes a document. */
  public interface Work {
    void run() throws IOException;
  }

  /**
   * Makes a document in the background, where nobody waits for an answer: it has its turn among the
   * others, however long that takes to come.
   *
   * @throws InterruptedException if the program ends meanwhile
   */
  public void inTurn(Work work) throws IOException, InterruptedException {
    turns.acquire();
    try {
      work.run();
    } finally {
      turns.release();
    }
  }

  private NotReady refusal() {
    refused.increment();
    return new NotReady(
        new NotReadyDetail.TooManyDocuments(atOnce, atOnce * WAITING_FOR_EACH),
        RETRY_AFTER_SECONDS);
  }
}
