package org.kornspur.api.query.advice;

import io.netty.util.concurrent.DefaultThreadFactory;
import io.quarkus.runtime.ShutdownEvent;
import io.quarkus.runtime.StartupEvent;
import jakarta.annotation.Priority;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Observes;
import jakarta.inject.Inject;
import java.time.Duration;
import java.util.Optional;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.TimeUnit;
import java.util.function.Predicate;
import org.jboss.logging.Logger;
import org.kornspur.api.kafka.DossierChanges;
import org.kornspur.api.kafka.NotReady;
import org.kornspur.api.kafka.ProcessorsClient;
import org.kornspur.api.readmodel.ReadModel;
import org.kornspur.ingest.contract.Subject;

/**
 * Keeps the forecasts of all F1 crops beside what was found, in the background, so that no request
 * waits for them: each second it looks what changed, and calculates the crops that this bears on.
 * It takes little time from the processors while they have work.
 */
@ApplicationScoped
class CalibrationKeeper {
  private static final Logger LOG = Logger.getLogger(CalibrationKeeper.class);
  private static final int AFTER_THE_ENGINE = 5_000;
  private static final int BEFORE_THE_ENGINE = 1_000;
  private static final Duration BETWEEN_LOOKS = Duration.ofSeconds(1);
  private static final Duration LONGEST_AT_REST = Duration.ofMillis(400);
  private static final Duration LONGEST_BESIDE_WORK = Duration.ofMillis(50);

  @Inject ProcessorsClient processors;
  @Inject ReadModel readModel;

  private final CalibrationIndex index = new CalibrationIndex();
  private final CalibrationQueue queue = new CalibrationQueue(index);
  private final ScheduledExecutorService thread =
      Executors.newSingleThreadScheduledExecutor(new DefaultThreadFactory("calibration", true));
  private DossierChanges changes;

  void start(@Observes @Priority(AFTER_THE_ENGINE) StartupEvent started) {
    var unused =
        thread.scheduleWithFixedDelay(
            this::look, 0, BETWEEN_LOOKS.toMillis(), TimeUnit.MILLISECONDS);
  }

  void stop(@Observes @Priority(BEFORE_THE_ENGINE) ShutdownEvent stopping)
      throws InterruptedException {
    thread.execute(this::close);
    thread.shutdown();
    if (!thread.awaitTermination(2, TimeUnit.SECONDS)) {
      thread.shutdownNow();
    }
  }

  /**
   * What is kept.
   *
   * @param hybridId of this hybrid alone; empty for all
   * @throws NotReady until the standings have been read
   */
  CalibrationIndex.Shown of(Optional<String> hybridId) {
    readModel.standings();
    return settled(index.of(hybridId));
  }

  /**
   * What is kept of the crops that are wanted.
   *
   * @throws NotReady until the standings have been read
   */
  CalibrationIndex.Shown of(Predicate<Subject> wanted) {
    readModel.standings();
    return settled(index.of(wanted));
  }

  private CalibrationIndex.Shown settled(CalibrationIndex.Shown shown) {
    return queue.isSettled() ? shown : shown.incomplete();
  }

  private void look() {
    try {
      if (changes == null) {
        changes = new DossierChanges(processors);
      }
      // the crops before the changes: what is judged in between is a change of the next look
      var crops = readModel.standings().f1Crops();
      queue.mark(crops, changes.next());
      if (queue.isSettled()) {
        return;
      }
      boolean atRest = processors.lag().values().stream().allMatch(waiting -> waiting == 0);
      queue.work(
          (crop, hybridId) ->
              CropCalibration.of(crop, hybridId, processors.pedigree(), processors::dossier),
          atRest,
          atRest ? LONGEST_AT_REST : LONGEST_BESIDE_WORK);
    } catch (NotReady notYet) {
      LOG.debugf("Forecasts wait: %s", notYet.getMessage());
    } catch (RuntimeException fault) {
      LOG.warn("Forecasts beside results are looked at anew", fault);
      close();
    }
  }

  private void close() {
    if (changes != null) {
      changes.close();
      changes = null;
    }
  }
}
