package org.kornspur.api.kafka;

import io.netty.util.concurrent.DefaultThreadFactory;
import jakarta.annotation.PreDestroy;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.jboss.logging.Logger;
import org.kornspur.api.storage.CannotStart;
import org.kornspur.processors.judging.Judge;
import org.kornspur.processors.standards.RulebookRefused;
import org.kornspur.processors.standards.Rulebooks;
import org.kornspur.processors.standards.Rulebooks.RulebookFile;
import org.kornspur.processors.stream.RejudgingProgress;

/**
 * The rules that this instance judges by: the rulebooks of the program, then those in the
 * administrator's folder, {@code *.yaml} in the order of their names, and every gate.
 *
 * <p>The folder is read at the start, and looked at again every few seconds. A change is taken once
 * it was the same at two looks, so that no half-written file counts. A file that is refused changes
 * nothing while the site runs; at the start it ends the start, because standings by other rules
 * than the administrator's would look like his.
 */
@ApplicationScoped
public class RulesInForce {
  private static final Logger LOG = Logger.getLogger(RulesInForce.class);
  private static final Duration BETWEEN_LOOKS = Duration.ofSeconds(5);
  private static final String FILES = "*.yaml";

  private final EngineSettings settings;
  private final Duration betweenLooks;
  private final RejudgingProgress progress = new RejudgingProgress();
  private ScheduledExecutorService looks;
  private List<RulebookFile> taken = List.of();
  private List<RulebookFile> seen = List.of();
  private volatile Rules rules;
  private volatile boolean refused;

  private record Rules(Rulebooks rulebooks, Judge judge) {}

  @Inject
  RulesInForce(EngineSettings settings) {
    this(settings, BETWEEN_LOOKS);
  }

  RulesInForce(EngineSettings settings, Duration betweenLooks) {
    this.settings = settings;
    this.betweenLooks = betweenLooks;
  }

  /** The rulebooks in force now. */
  public Rulebooks rulebooks() {
    return rules().rulebooks();
  }

  /** Judges by the rules in force now. */
  public Judge judge() {
    return rules().judge();
  }

  /** How far this instance is with judging dossiers again after a change of the rules. */
  public RejudgingProgress progress() {
    return progress;
  }

  /** Whether the rulebooks in the folder are refused as they are now; the log says why. */
  public boolean areRefused() {
    return refused;
  }

  /**
   * Reads the folder, and from now on looks whether it changed.
   *
   * @throws CannotStart if a rulebook is refused or cannot be read
   */
  synchronized void start() {
    rules();
    if (looks == null) {
      looks =
          Executors.newSingleThreadScheduledExecutor(new DefaultThreadFactory("rulebooks", true));
      long pause = betweenLooks.toMillis();
      looks.scheduleWithFixedDelay(this::look, pause, pause, TimeUnit.MILLISECONDS);
    }
  }

  @PreDestroy
  synchronized void stop() {
    if (looks != null) {
      looks.shutdownNow();
    }
  }

  private Rules rules() {
    Rules now = rules;
    return now == null ? firstRules() : now;
  }

  private synchronized Rules firstRules() {
    if (rules == null) {
      try {
        taken = files();
        seen = taken;
        rules = rulesOf(taken);
      } catch (RulebookRefused | UncheckedIOException | IOException unusable) {
        throw new CannotStart(
            "A rulebook in "
                + folder()
                + " cannot be used: "
                + unusable.getMessage()
                + ". Mend it or take it out.",
            unusable);
      }
    }
    return rules;
  }

  /** Whom the site believes decides which facts count. */
  private Rules rulesOf(List<RulebookFile> files) {
    Rulebooks rulebooks = Rulebooks.bundledAnd(files);
    Judge judge = Judge.by(rulebooks);
    return new Rules(
        rulebooks, settings.trustTopicProducers() ? judge.under("trusts topic producers") : judge);
  }

  /** Throws nothing, or it would be the last look. */
  private synchronized void look() {
    try {
      List<RulebookFile> now = files();
      boolean stands = now.equals(seen);
      seen = now;
      if (stands && !now.equals(taken)) {
        taken = now;
        rules = rulesOf(now);
        refused = false;
        LOG.infof(
            "The rulebooks in %s changed; dossiers are judged again by the rules %s",
            folder(), rules.judge().rules());
      }
    } catch (RulebookRefused unusable) {
      refused = true;
      LOG.errorf(
          "A changed rulebook in %s is refused, and the rules in force stay: %s",
          folder(), unusable.getMessage());
    } catch (IOException | RuntimeException unreadable) {
      LOG.errorf(unreadable, "The rulebooks in %s cannot be read; the rules stay", folder());
    }
  }

  private Path folder() {
    return settings
        .rulebookFolder()
        .orElseGet(() -> settings.dataFolder().resolve("rulebooks"))
        .toAbsolutePath();
  }

  private List<RulebookFile> files() throws IOException {
    Path folder = folder();
    if (settings.rulebookFolder().isEmpty() && !Files.exists(folder)) {
      return List.of();
    }
    try (Stream<Path> all = Files.list(folder)) {
      return all.filter(file -> matches(file)).sorted().map(RulesInForce::read).toList();
    }
  }

  private static boolean matches(Path file) {
    return file.getFileSystem().getPathMatcher("glob:" + FILES).matches(file.getFileName())
        && Files.isRegularFile(file);
  }

  private static RulebookFile read(Path file) {
    try {
      return new RulebookFile(file.getFileName().toString(), Files.readString(file));
    } catch (IOException unreadable) {
      throw new UncheckedIOException(unreadable);
    }
  }
}
