package org.kornspur.processors.stream;

import java.time.Duration;
import java.util.Set;
import java.util.function.Supplier;
import java.util.stream.Collectors;
import org.apache.kafka.streams.processor.Cancellable;
import org.apache.kafka.streams.processor.PunctuationType;
import org.apache.kafka.streams.processor.api.Processor;
import org.apache.kafka.streams.processor.api.ProcessorContext;
import org.apache.kafka.streams.processor.api.Record;
import org.apache.kafka.streams.state.KeyValueStore;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.wire.WireFormat;
import org.kornspur.processors.judging.Judge;

/**
 * Has dossiers judged into which something was filed: at once where nothing else waits; and what
 * comes closely behind it, or waited itself, together. A dossier that is not judged at once is
 * marked, and the task sends itself a reminder through the loop-back, behind all that is on its way
 * there. When that is back, the marked dossiers are judged in small steps, a reminder for each. So
 * everything that waits is filed before anything is judged, however much comes; reports do not
 * double where ways that parted meet again; and as long as a dossier is marked the reminder is a
 * record not yet processed, by which everybody sees that answers are not settled.
 *
 * <p>Where more is marked than a few steps judge, much is being loaded, and more is to come for
 * most of the dossiers. So nothing is judged then while facts still come in, for {@link
 * #LONGEST_LOAD} at most.
 *
 * <p>A dossier with a parent that has told it nothing yet waits for its word: the fact that made
 * the one a parent lies in both dossiers. One that is marked waits for its hybrid likewise, and for
 * laboratories, which it asks at once. So a production that comes all at once is judged from the
 * parents down, each dossier once.
 *
 * <p>In the background all dossiers of the task are judged again when the rules change.
 */
final class DossierJudging implements Processor<Subject, DossierChange, String, DossierRecord> {
  /** From one dossier that is judged at once to the next: little of a thread's time. */
  static final Duration PAUSE = Duration.ofMillis(20);

  /**
   * A record that waited longer has others behind it: it takes a commit to become readable, at most
   * 100 ms, where nothing waits.
   */
  static final Duration LONGEST_ON_ITS_WAY = Duration.ofMillis(250);

  private static final Duration LONGEST_STEP = Duration.ofMillis(100);
  static final int MOST_JUDGED_IN_A_STEP = 200;

  /** Of more marked dossiers it is a load; at half of what a task can judge there are fewer. */
  static final int LOAD = 2 * MOST_JUDGED_IN_A_STEP;

  /** So many a busy machine judges in a short step. */
  private static final int JUDGED_IN_A_SHORT_STEP = 30;

  /**
   * Where more are ready a step is longer, at most by this: from one to the next a transaction has
   * to be committed, for which the thread would wait as long as it judged.
   */
  private static final int MOST_STEPS_IN_ONE = 5;

  /** So long the first of a load waits for the rest of it at most. */
  static final Duration LONGEST_LOAD = Duration.ofSeconds(60);

  /**
   * Reminders, with nothing filed here and nothing judged on this instance, after which nobody is
   * waited for any more: a parent that cannot be judged tells nothing, and those of a circle wait
   * for each other.
   */
  private static final int MOST_IDLE_STEPS = 5;

  /** So long a reminder is waited for. */
  static final Duration LONGEST_REMINDED = Duration.ofSeconds(5);

  private final WireFormat wire;
  private final Supplier<Judge> judges;
  private final JudgingProgress progress;
  private ProcessorContext<String, DossierRecord> context;
  private DossierUpdater updater;
  private RejudgingWalk walk;
  private KeyValueStore<String, byte[]> reports;
  private MarkedDossiers marked;
  private SkippedRecords skipped;
  private StandingDelays.OfTask delays;
  private Cancellable check;
  private boolean isReminded;
  private boolean wentOn;
  private int idleSteps;
  private int factsSinceStep;
  private int filedSinceStep;
  private long judgingsAtStep;
  private long judgedAtOnceMs;

  /**
   * @param progress of all tasks of this instance
   */
  DossierJudging(WireFormat wire, Supplier<Judge> judges, JudgingProgress progress) {
    this.wire = wire;
    this.judges = judges;
    this.progress = progress;
  }

  @Override
  public void init(ProcessorContext<String, DossierRecord> context) {
    this.context = context;
    updater = new DossierUpdater(context, wire, judges);
    walk = new RejudgingWalk(context, updater);
    reports = context.getStateStore(StateStores.DOSSIER_REPORTS);
    marked = new MarkedDossiers(context.getStateStore(StateStores.DOSSIER_REMINDERS));
    skipped = PoisonRecords.counter(context.appConfigs());
    delays = StandingDelays.ofTask(context.appConfigs());
    isReminded = false;
    wentOn = false;
    idleSteps = 0;
    factsSinceStep = 0;
    filedSinceStep = 0;
    judgingsAtStep = 0;
    judgedAtOnceMs = 0;
    check =
        context.schedule(LONGEST_REMINDED, PunctuationType.WALL_CLOCK_TIME, now -> missReminder());
  }

  @Override
  public void close() {
    check.cancel();
    walk.close();
  }

  @Override
  public void process(Record<Subject, DossierChange> record) {
    Subject subject = record.key();
    filedSinceStep++;
    if (record.value() instanceof DossierChange.OfFact fact) {
      factsSinceStep++;
      delays.filed(subject, record.headers());
      judgeSoon(record, fact);
    } else if (record.value() instanceof DossierChange.OfReport question
        && subject.kind() == Subject.Kind.ENTERPRISE) {
      updater.answer(subject, question.sender());
    } else if (record.value() instanceof DossierChange.OfReport report) {
      marked.heard(subject, report.sender(), context.currentSystemTimeMs());
      judgeSoon(record, DossierChange.OfFact.OF_NONE);
    } else {
      filedSinceStep--;
      goOn(subject);
    }
  }

  private void goOn(Subject subject) {
    wentOn = true;
    isReminded = false;
    if (!isLoading()) {
      judgeMarked();
    }
    factsSinceStep = 0;
    filedSinceStep = 0;
    if (!marked.isEmpty()) {
      remind(subject);
    }
  }

  private boolean isLoading() {
    long now = context.currentSystemTimeMs();
    return factsSinceStep > 0
        && marked.size() > LOAD
        && now - marked.oldestMs(now) < LONGEST_LOAD.toMillis();
  }

  /** A record in a partition that is not its key's makes a reminder that never comes back. */
  private void missReminder() {
    if (!marked.isEmpty() && !wentOn) {
      goOn(marked.first());
    }
    wentOn = false;
  }

  /** Customers are told nothing, so only crops and lots wait. */
  private Set<String> unheard(Subject subject, Set<String> senders) {
    return switch (subject.kind()) {
      case CROP, LOT ->
          senders.stream()
              .filter(sender -> reports.get(Keys.of(subject, sender)) == null)
              .collect(Collectors.toSet());
      case HYBRID, SOURCE, ENTERPRISE -> Set.of();
    };
  }

  private void judgeSoon(Record<Subject, DossierChange> record, DossierChange.OfFact named) {
    Subject subject = record.key();
    Set<String> parents = unheard(subject, named.parents());
    long now = context.currentSystemTimeMs();
    boolean isQuiet =
        marked.isEmpty()
            && now - judgedAtOnceMs >= PAUSE.toMillis()
            && now - record.timestamp() <= LONGEST_ON_ITS_WAY.toMillis();
    if (isQuiet && parents.isEmpty() && !marked.waits(subject)) {
      marked.unmark(subject);
      refresh(subject);
      progress.judged();
      judgedAtOnceMs = context.currentSystemTimeMs();
    } else {
      marked.mark(subject, parents, now);
      marked.mark(subject, unheard(subject, named.hybrids()), now);
      Set<String> laboratories = unheard(subject, named.laboratories());
      laboratories.stream()
          .filter(laboratory -> !marked.waitsFor(subject, laboratory))
          .forEach(laboratory -> updater.ask(subject, Subject.parse(laboratory)));
      marked.mark(subject, laboratories, now);
      remind(subject);
    }
  }

  private void judgeMarked() {
    long now = context.currentSystemTimeMs();
    progress.note(marked.oldestReadyMs(now), now);
    int steps = Math.min(MOST_STEPS_IN_ONE, 1 + marked.ready() / JUDGED_IN_A_SHORT_STEP);
    long end = System.nanoTime() + steps * LONGEST_STEP.toNanos();
    long waited =
        idleSteps < MOST_IDLE_STEPS ? now - progress.longestWait(now).toMillis() : Long.MAX_VALUE;
    boolean isAtWork = filedSinceStep > 0 || progress.judgings() != judgingsAtStep;
    idleSteps = marked.isEmpty() || isAtWork ? 0 : idleSteps + 1;
    for (Subject subject : marked.due(waited, steps * MOST_JUDGED_IN_A_STEP)) {
      idleSteps = 0;
      marked.unmark(subject);
      judge(subject);
      if (System.nanoTime() - end > 0) {
        break;
      }
    }
    judgingsAtStep = progress.judgings();
  }

  private void refresh(Subject subject) {
    delays.judge(subject, () -> updater.refresh(subject), context::currentSystemTimeMs);
  }

  /** What breaks in one dossier is no reason to leave the others unjudged. */
  private void judge(Subject subject) {
    progress.judged();
    try {
      refresh(subject);
    } catch (RuntimeException fault) {
      if (PoisonRecords.isNoFaultOfTheRecord(fault)) {
        throw fault;
      }
      skipped.add(context, "the judging of " + subject, fault);
    }
  }

  /**
   * It goes to the partition of this task, as the subject's own reports do, and behind all that
   * came in this moment.
   */
  private void remind(Subject subject) {
    if (!isReminded) {
      isReminded = true;
      context.forward(
          new Record<>(
              subject.toString(), ReportChange.reminder(), context.currentSystemTimeMs() + 1),
          Dossiers.TO_REPORTS);
    }
  }
}
