package org.kornspur.api.kafka;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.io.IOException;
import java.nio.file.Files;
import java.time.Duration;
import java.util.Optional;
import java.util.function.LongSupplier;
import org.jboss.logging.Logger;
import org.kornspur.api.problem.NotReadyDetail;

/**
 * Whether more facts may come in. What was taken is on disk and waits there until it is judged, so
 * a limit on what waits, and on the disk that is left, keeps a rush from filling the disk; what is
 * turned away was not taken, and is to be sent again.
 *
 * <p>The limit is looked at once a request and the count may be half a second old: what comes at
 * once may go beyond it by as much.
 */
@ApplicationScoped
public class IntakeLimit {
  private static final Logger LOG = Logger.getLogger(IntakeLimit.class);
  private static final int RETRY_AFTER_SECONDS = 10;
  private static final int DISK_RETRY_AFTER_SECONDS = 60;
  private static final Duration BETWEEN_LOOKS = Duration.ofMillis(500);
  private static final long BYTES_IN_MB = 1_000_000;

  private final long mostWaiting;
  private final LongSupplier waiting;
  private final long leastFreeBytes;
  private final LongSupplier freeBytes;

  @Inject
  IntakeLimit(ProcessorsClient processors, EngineSettings settings) {
    this(
        settings.mostWaitingRecords(),
        processors::recordsWaiting,
        settings.leastFreeDiskMb() * BYTES_IN_MB,
        () -> freeBytes(settings));
  }

  /**
   * @param waiting records not processed yet
   * @param freeBytes on the disk of the data folder
   */
  IntakeLimit(long mostWaiting, LongSupplier waiting, long leastFreeBytes, LongSupplier freeBytes) {
    this.mostWaiting = mostWaiting;
    this.waiting = waiting;
    this.leastFreeBytes = leastFreeBytes;
    this.freeBytes = freeBytes;
  }

  /**
   * Ends a request that brings facts while there is no room for them; nothing of it was taken.
   *
   * @throws NotReady with status 429 where too much waits, 503 where the disk is nearly full
   */
  public void requireRoom() {
    refusal()
        .ifPresent(
            refused -> {
              throw refused;
            });
  }

  /** Free space on the disk of the data folder, bytes; empty where the disk does not tell. */
  Optional<Long> freeSpace() {
    return Optional.of(freeBytes.getAsLong()).filter(free -> free < Long.MAX_VALUE);
  }

  /** Waits until there is room. */
  void awaitRoom() throws InterruptedException {
    Optional<NotReady> refused = refusal();
    if (refused.isPresent()) {
      LOG.infof("Loading waits: %s", refused.get().getMessage());
    }
    while (refused.isPresent()) {
      Thread.sleep(BETWEEN_LOOKS.toMillis());
      refused = refusal();
    }
  }

  private Optional<NotReady> refusal() {
    long free = freeBytes.getAsLong();
    if (free < leastFreeBytes) {
      return Optional.of(
          new NotReady(
              new NotReadyDetail.DiskNearlyFull(free / BYTES_IN_MB, leastFreeBytes / BYTES_IN_MB),
              DISK_RETRY_AFTER_SECONDS));
    }
    long count = countOrNone();
    return count <= mostWaiting
        ? Optional.empty()
        : Optional.of(
            NotReady.tooMuch(
                new NotReadyDetail.TooManyWaiting(count, mostWaiting), RETRY_AFTER_SECONDS));
  }

  /** Brokers that do not tell what waits take no facts either, and say so themselves. */
  private long countOrNone() {
    try {
      return waiting.getAsLong();
    } catch (NotReady notTold) {
      LOG.debugf("What waits is not known: %s", notTold.getMessage());
      return 0;
    }
  }

  /** A disk that does not tell counts as empty: it is not for this to stop the work. */
  private static long freeBytes(EngineSettings settings) {
    try {
      return Files.getFileStore(settings.dataFolder()).getUsableSpace();
    } catch (IOException notTold) {
      LOG.debugf(notTold, "The free space of %s is not known", settings.dataFolder());
      return Long.MAX_VALUE;
    }
  }
}
