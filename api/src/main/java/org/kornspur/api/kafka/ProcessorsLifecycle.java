package org.kornspur.api.kafka;

import io.micrometer.core.instrument.FunctionCounter;
import io.micrometer.core.instrument.Gauge;
import io.micrometer.core.instrument.MeterRegistry;
import io.quarkus.runtime.Quarkus;
import io.quarkus.runtime.ShutdownEvent;
import io.quarkus.runtime.StartupEvent;
import io.quarkus.runtime.configuration.ConfigurationException;
import io.quarkus.vertx.http.runtime.filters.Filters;
import jakarta.annotation.Priority;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Observes;
import jakarta.inject.Inject;
import java.io.IOException;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Optional;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicReference;
import org.apache.kafka.streams.state.HostInfo;
import org.eclipse.microprofile.config.inject.ConfigProperty;
import org.jboss.logging.Logger;
import org.kornspur.api.problem.NotReadyDetail;
import org.kornspur.api.storage.CannotStart;
import org.kornspur.api.storage.PrivateFolder;
import org.kornspur.api.storage.RefusedTableFolder;
import org.kornspur.api.text.Language;
import org.kornspur.ingest.intake.CountedNoun;
import org.kornspur.processors.stream.RejudgingProgress;

/**
 * Starts the processors beside the HTTP server, so that health can tell how far they are, and stops
 * them with it.
 */
@ApplicationScoped
public class ProcessorsLifecycle {
  private static final Logger LOG = Logger.getLogger(ProcessorsLifecycle.class);
  private static final int BEFORE_ALL = 1;
  private static final Duration LONGEST_START = Duration.ofSeconds(30);

  @Inject EngineSettings settings;
  @Inject SiteKeys keys;
  @Inject MeterRegistry meters;
  @Inject RulesInForce rules;
  @Inject IntakeLimit limit;

  @ConfigProperty(name = "quarkus.http.host", defaultValue = "127.0.0.1")
  String httpHost;

  @ConfigProperty(name = "quarkus.http.port", defaultValue = "8080")
  int httpPort;

  private final AtomicReference<RunningProcessors> running = new AtomicReference<>();
  private volatile String condition = "not started";
  private volatile boolean failed;
  private final CountDownLatch stop = new CountDownLatch(1);
  private Thread starter;

  /** With the first event that there is: a key is made for the routes, before the start. */
  void closeFolder(@Observes @Priority(BEFORE_ALL) Filters routes) {
    try {
      int closed = PrivateFolder.make(settings.dataFolder());
      if (closed > 0) {
        LOG.warnf(
            "Data folder %s was open to other users of this machine. It is closed now, and %d files"
                + " and folders with it; what others read or wrote there before is not undone.",
            settings.dataFolder().toAbsolutePath(), closed);
      }
    } catch (CannotStart cannotStart) {
      // Of this one, where it has no cause, Quarkus says the message and nothing else.
      throw new ConfigurationException("Kornspur could not start: " + cannotStart.getMessage());
    }
  }

  void onStart(@Observes StartupEvent event) {
    Gauge.builder("kornspur.records.skipped", this, ProcessorsLifecycle::skippedRecords)
        .description("Records that the processors passed over; the log names them")
        .register(meters);
    RejudgingProgress rejudging = rules.progress();
    Gauge.builder("kornspur.rejudging.remaining", rejudging, RejudgingProgress::toLookAt)
        .description("Dossiers that are still to be looked at after a change of the rules")
        .register(meters);
    FunctionCounter.builder("kornspur.rejudging.judged", rejudging, RejudgingProgress::judged)
        .description("Dossiers that were judged again for a change of the rules since the start")
        .register(meters);
    starter = new Thread(this::start, "kornspur-start");
    starter.start();
  }

  void onStop(@Observes ShutdownEvent event) {
    stop.countDown();
    if (settings.bootstrapServers().isEmpty()) {
      awaitStart();
    }
    starter.interrupt();
    RunningProcessors processors = running.getAndSet(null);
    if (processors != null) {
      processors.close();
    }
  }

  /** Kafka ends the whole process where its broker is interrupted while it starts in it. */
  private void awaitStart() {
    long end = System.nanoTime() + LONGEST_START.toNanos();
    while (running.get() == null && starter.isAlive() && System.nanoTime() - end < 0) {
      try {
        starter.join(20);
      } catch (InterruptedException e) {
        Thread.currentThread().interrupt();
        return;
      }
    }
  }

  private void start() {
    StartAttempts attempts = new StartAttempts();
    boolean started = false;
    while (!started) {
      try {
        condition = "starting broker, registry and processors";
        running.set(RunningProcessors.start(settings, keys, self(), rules, meters));
        started = true;
      } catch (Throwable fault) { // an Error too, or the process would stay and do nothing
        if (isStopping() || !mayTryAgain(fault, attempts)) {
          return;
        }
      }
    }
    if (isStopping()) {
      // unless the stop has it already
      Optional.ofNullable(running.getAndSet(null)).ifPresent(RunningProcessors::close);
      return;
    }
    condition = "processors started";
    settings.load().ifPresent(this::load);
  }

  /** Waits where another attempt may help; else ends the process. */
  private boolean mayTryAgain(Throwable fault, StartAttempts attempts) {
    Optional<Duration> pause = attempts.pauseAfter(fault);
    String words = StartAttempts.words(fault);
    if (pause.isPresent()) {
      condition = "waiting to start: " + words;
      LOG.warnf("Kornspur cannot start yet: %s. Next attempt in %s.", words, pause.get());
      return !stopsWithin(pause.get());
    }
    failed = true;
    condition = "could not start: " + words;
    if (!(fault instanceof CannotStart)) {
      LOG.error("An unexpected fault", fault);
    }
    LOG.errorf("Kornspur could not start, and ends: %s", words);
    Quarkus.asyncExit(1);
    return false;
  }

  private boolean isStopping() {
    return stop.getCount() == 0;
  }

  private boolean stopsWithin(Duration pause) {
    try {
      return stop.await(pause.toMillis(), TimeUnit.MILLISECONDS);
    } catch (InterruptedException e) {
      return true;
    }
  }

  private void load(Path folder) {
    try {
      RefusedTableFolder refused =
          new RefusedTableFolder(settings.dataFolder().resolve("refused-rows"), Language.ofSite());
      StartLoad.run(folder, refused, processors().clientSettings(), keys.signing(), limit);
    } catch (IOException | RuntimeException cannotLoad) {
      LOG.errorf(cannotLoad, "%s could not be loaded whole; what was loaded stays", folder);
    }
  }

  private HostInfo self() {
    String address = settings.advertisedAddress().orElse(httpHost + ":" + httpPort);
    int colon = address.lastIndexOf(':');
    if (colon < 1) {
      throw new IllegalArgumentException(
          "kornspur.advertised-address is '" + address + "'. Give host:port.");
    }
    return new HostInfo(
        address.substring(0, colon), Integer.parseInt(address.substring(colon + 1)));
  }

  /** Whether every question can be answered now. */
  boolean isReady() {
    RunningProcessors processors = running.get();
    return processors != null && processors.isRunning();
  }

  /** Whether starting or running failed for good, so that only a restart helps. */
  boolean hasFailed() {
    RunningProcessors processors = running.get();
    return failed || (processors != null && processors.hasFailed());
  }

  /** What is being done, for a person: starting, restoring, running. */
  String condition() {
    RunningProcessors processors = running.get();
    if (processors == null) {
      return condition;
    }
    long skipped = processors.skipped().total();
    return skipped == 0
        ? processors.condition()
        : processors.condition()
            + "; "
            + CountedNoun.of(skipped, "record(s)")
            + " could not be processed, see the log";
  }

  private long skippedRecords() {
    return Optional.ofNullable(running.get()).map(now -> now.skipped().total()).orElse(0L);
  }

  /**
   * The processors.
   *
   * @throws NotReady if they do not run yet
   */
  RunningProcessors processors() {
    RunningProcessors processors = running.get();
    if (processors == null) {
      throw new NotReady(new NotReadyDetail.NotRunning(), 3);
    }
    return processors;
  }
}
