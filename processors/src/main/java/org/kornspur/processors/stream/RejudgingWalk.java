package org.kornspur.processors.stream;

import java.time.Duration;
import java.util.Optional;
import org.apache.kafka.streams.processor.Cancellable;
import org.apache.kafka.streams.processor.PunctuationType;
import org.apache.kafka.streams.processor.api.ProcessorContext;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.standards.RulesFingerprint;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Has every dossier of a task that was judged by other rules judged again: at the start, and
 * whenever the rules in force change. It goes in small steps between the records that come in, each
 * within the transaction of the task, so that a dossier is judged again exactly once and nobody
 * waits. A step that is lost with its transaction is done again.
 *
 * <p>First it counts the dossiers, so that its progress can be told; then it looks at each, and
 * judges those that are not of the rules in force. Dossiers may be judged in any order: what a
 * parent tells its children again makes them judged once more, as ever.
 */
final class RejudgingWalk {
  private static final Logger LOG = LoggerFactory.getLogger(RejudgingWalk.class);

  /** Between two steps. With the length of a step it leaves a thread half of its time. */
  static final Duration INTERVAL = Duration.ofMillis(100);

  /**
   * From one look whether the rules changed to the next. Kafka Streams commits after each, also
   * where nothing was done, so a site at rest looks seldom.
   */
  static final Duration IDLE_INTERVAL = Duration.ofSeconds(1);

  private static final long LONGEST_STEP_NANOS = Duration.ofMillis(50).toNanos();
  static final int MOST_JUDGED_IN_A_STEP = 200;
  private static final int MOST_LOOKED_AT_IN_A_STEP = 5_000;

  private final DossierUpdater updater;
  private final SubjectsInStores subjects;
  private final RejudgingProgress.OfTask progress;
  private final SkippedRecords skipped;
  private final ProcessorContext<?, ?> context;
  private Duration interval;
  private Cancellable steps;

  private Optional<RulesFingerprint> doneFor = Optional.empty();
  private Optional<Walk> walk = Optional.empty();

  RejudgingWalk(ProcessorContext<?, ?> context, DossierUpdater updater) {
    this.context = context;
    this.updater = updater;
    subjects = updater.subjects();
    progress = RejudgingProgress.of(context.appConfigs()).ofTask(context.taskId());
    skipped = PoisonRecords.counter(context.appConfigs());
    interval = INTERVAL;
    steps = context.schedule(interval, PunctuationType.WALL_CLOCK_TIME, now -> step());
  }

  private void goOnEvery(Duration next) {
    if (!next.equals(interval)) {
      steps.cancel();
      interval = next;
      steps = context.schedule(interval, PunctuationType.WALL_CLOCK_TIME, now -> step());
    }
  }

  /** A walk under one set of rules. */
  private final class Walk {
    private final RulesFingerprint rules;
    private boolean counting = true;
    private Optional<String> next;
    private long judged;

    Walk(RulesFingerprint rules) {
      this.rules = rules;
      next = subjects.first();
    }

    /** Goes on for a bounded time; returns whether it is at its end. */
    boolean goOn() {
      long end = System.nanoTime() + LONGEST_STEP_NANOS;
      long mostJudged = judged + MOST_JUDGED_IN_A_STEP;
      int lookedAt = 0;
      while (next.isPresent()
          && lookedAt < MOST_LOOKED_AT_IN_A_STEP
          && judged < mostJudged
          && System.nanoTime() - end < 0) {
        visit(next.get());
        lookedAt++;
        next = subjects.after(next.get());
      }
      if (next.isEmpty() && counting) {
        counting = false;
        next = subjects.first();
      }
      return next.isEmpty();
    }

    private void visit(String subject) {
      if (counting) {
        progress.found();
      } else {
        judge(subject);
        progress.lookedAt();
      }
    }

    private void judge(String key) {
      Subject subject;
      try {
        subject = Subject.parse(key);
      } catch (IllegalArgumentException noSubject) {
        skipped.add(context, "the store of dossiers", noSubject);
        return;
      }
      if (!updater.rulesOfDossiers().is(subject, rules)) {
        updater.refresh(subject);
        judged++;
        progress.judged();
      }
    }
  }

  private void step() {
    RulesFingerprint rules = updater.rules();
    if (doneFor.filter(rules::equals).isPresent()) {
      goOnEvery(IDLE_INTERVAL);
      return;
    }
    goOnEvery(INTERVAL);
    if (walk.filter(going -> going.rules.equals(rules)).isEmpty()) {
      begin(rules);
    }
    walk.filter(Walk::goOn).ifPresent(this::end);
  }

  private void begin(RulesFingerprint rules) {
    progress.clear();
    walk = Optional.empty();
    if (updater.rulesOfDossiers().areAll(rules)) {
      doneFor = Optional.of(rules);
    } else {
      doneFor = Optional.empty();
      walk = Optional.of(new Walk(rules));
    }
  }

  private void end(Walk ended) {
    updater.rulesOfDossiers().noteAll(ended.rules);
    doneFor = Optional.of(ended.rules);
    walk = Optional.empty();
    progress.clear();
    if (ended.judged > 0) {
      LOG.info(
          "Task {}: {} dossiers were judged again by the rules {}",
          context.taskId(),
          ended.judged,
          ended.rules);
    }
  }

  /** Stops it; another instance goes on with the task. */
  void close() {
    steps.cancel();
    progress.clear();
  }
}
