package org.kornspur.processors.stream;

import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.function.Supplier;
import java.util.stream.Stream;
import org.apache.kafka.streams.processor.api.ProcessorContext;
import org.apache.kafka.streams.state.KeyValueStore;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.wire.WireFormat;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.Report;
import org.kornspur.processors.judging.Judge;
import org.kornspur.processors.judging.Outcome;
import org.kornspur.processors.judging.Standing;
import org.kornspur.processors.pedigree.Edge;
import org.kornspur.processors.standards.RulesFingerprint;

/**
 * Has the dossiers judged that the stores of one task hold, and sends on what changed.
 *
 * <p>A dossier is judged whole each time, from all that it holds. So its outcome cannot depend on
 * the order in which things came.
 */
final class DossierUpdater {
  private static final Route<PlotChange> TO_PLOTS =
      Route.withEndRecord(Dossiers.TO_PLOTS, Topics.PLOTS, Topics.plots());
  private static final Route<ReportChange> TO_REPORTS =
      Route.withEndRecord(Dossiers.TO_REPORTS, Topics.REPORTS, Topics.reports());

  private static final Set<String> NO_LETTERS = Set.of(FaultLog.LOGGED, RulesOfDossiers.RULES);

  private final Supplier<Judge> judges;
  private final DossierReader reader;
  private final ReportReader reportReader;
  private final KeyValueStore<String, byte[]> facts;
  private final KeyValueStore<String, byte[]> reports;
  private final KeyValueStore<String, byte[]> sent;
  private final Outbox<DossierRecord> outbox;
  private final Route<DossierRecord.OfStanding> toStandings;
  private final Route<DossierRecord.OfEdge> toEdges;
  private final FaultLog faults;
  private final RulesOfDossiers rulesOfDossiers;
  private final ProcessorContext<String, DossierRecord> context;
  private final SkippedRecords skipped;

  DossierUpdater(
      ProcessorContext<String, DossierRecord> context, WireFormat wire, Supplier<Judge> judges) {
    this.context = context;
    this.judges = judges;
    skipped = PoisonRecords.counter(context.appConfigs());
    facts = context.getStateStore(StateStores.DOSSIER_FACTS);
    reports = context.getStateStore(StateStores.DOSSIER_REPORTS);
    reader =
        new DossierReader(
            wire,
            facts,
            context.getStateStore(StateStores.DOSSIER_REVOCATIONS),
            DossierReader.trustsProducers(context.appConfigs()));
    reportReader = new ReportReader(reports);
    toStandings =
        Route.withTombstone(Dossiers.TO_STANDINGS, Topics.STANDINGS, Topics.standings(wire));
    toEdges = Route.withTombstone(Dossiers.TO_EDGES, Topics.EDGES, Topics.edges(wire));
    sent = context.getStateStore(StateStores.DOSSIER_OUTBOX);
    outbox = new Outbox<>(context, sent);
    faults = new FaultLog(context, sent);
    rulesOfDossiers = new RulesOfDossiers(sent);
  }

  /** Fingerprint of the rules in force here. */
  RulesFingerprint rules() {
    return judges.get().rules();
  }

  /** By which rules each dossier of this task was judged last. */
  RulesOfDossiers rulesOfDossiers() {
    return rulesOfDossiers;
  }

  /** The subjects that this task holds something of. */
  SubjectsInStores subjects() {
    return new SubjectsInStores(facts, reports);
  }

  /**
   * Judges a dossier again and sends on what changed.
   *
   * <p>Where some of it cannot be read, or its judging fails, the earlier standing must not stay:
   * evidence is owed, the children are told nothing any more, and what was said of edges and place
   * holds until it can be said again.
   */
  void refresh(Subject subject) {
    DossierReader.Held held = reader.heldBy(subject);
    ReportReader.Told told = reportReader.toldTo(subject);
    LastSentReports letters = sentBy(subject);
    List<String> unreadable =
        Stream.concat(held.unreadable().stream(), told.unreadable().stream()).toList();
    Optional<Standing> judged = Optional.empty();
    Judge judge = judges.get();
    RulesFingerprint rules = judge.rules();
    try {
      Outcome outcome = judge.judge(new Dossier(subject, held.entries(), told.reports()));
      judged = outcome.standing();
      if (unreadable.isEmpty()) {
        deliver(letters, subject, outcome, rules);
      } else {
        deliverOwed(
            letters, held, subject, StandingAfterFault.besides(subject, judged, unreadable), rules);
      }
    } catch (RuntimeException fault) {
      if (PoisonRecords.isNoFaultOfTheRecord(fault)) {
        throw fault;
      }
      skipped.add(context, "the judging of " + subject, fault);
      deliverOwed(
          letters, held, subject, StandingAfterFault.insteadOf(subject, judged, fault), rules);
    } finally {
      letters.keep();
    }
    rulesOfDossiers.note(subject, rules, letters.others());
  }

  /** Enterprises have a record for each letter: {@link #answer} looks for one by its own key. */
  private LastSentReports sentBy(Subject subject) {
    boolean isAnsweredOneByOne = subject.kind() == Subject.Kind.ENTERPRISE;
    return new LastSentReports(
        sent, subject, NO_LETTERS, isAnsweredOneByOne ? 0 : LastSentReports.MOST_ON_A_PAGE);
  }

  /**
   * Asks a laboratory before the dossier is judged, so that it need not be judged again for the
   * answer. If it turns out then that there is nothing to ask, the question is taken back.
   */
  void ask(Subject subject, Subject laboratory) {
    LastSentReports before = sentBy(subject);
    outbox.deliverFurther(
        before,
        TO_REPORTS,
        laboratory.toString(),
        ReportChange.letter(new Report.AsksLaboratory(subject, laboratory)));
    before.keep();
  }

  /**
   * Tells one lot what a laboratory is declared for. The others hold what they were told: a
   * laboratory has made tests of very many.
   */
  void answer(Subject laboratory, String asker) {
    DossierReader.Held held = reader.heldBy(laboratory);
    Judge judge = judges.get();
    List<Report> asked =
        Optional.ofNullable(reports.get(Keys.of(laboratory, asker)))
            .map(ReportReader::read)
            .stream()
            .toList();
    List<Report> answers =
        held.unreadable().isEmpty()
            ? judge.judge(new Dossier(laboratory, held.entries(), asked)).reports()
            : List.of();
    outbox.deliverOne(
        laboratory, TO_REPORTS, asker, answers.stream().findFirst().map(ReportChange::letter));
  }

  private void deliver(
      LastSentReports before, Subject subject, Outcome outcome, RulesFingerprint rules) {
    outbox.deliver(before, toStandings, standing(subject, outcome.standing(), rules));
    outbox.deliver(before, toEdges, edges(outcome));
    outbox.deliver(before, TO_PLOTS, plots(subject, outcome));
    outbox.deliver(before, TO_REPORTS, letters(outcome.reports()));
    faults.note(subject, outcome.faults(), before.others().keySet());
  }

  /**
   * The children are told nothing, but laboratories are still asked: were a question taken back for
   * a fault, the answer would go, and the dossier be judged by other facts than it holds.
   */
  private void deliverOwed(
      LastSentReports before,
      DossierReader.Held held,
      Subject subject,
      Optional<Standing> owed,
      RulesFingerprint rules) {
    outbox.deliver(before, toStandings, standing(subject, owed, rules));
    outbox.deliver(
        before,
        TO_REPORTS,
        letters(Judge.questions(new Dossier(subject, held.entries(), List.of()))));
  }

  private static SortedMap<String, Outbox.Letter<DossierRecord.OfStanding>> standing(
      Subject subject, Optional<Standing> judged, RulesFingerprint rules) {
    SortedMap<String, Outbox.Letter<DossierRecord.OfStanding>> letters = new TreeMap<>();
    judged.ifPresent(
        standing ->
            letters.put(
                subject.toString(),
                Outbox.Letter.withTombstone(StandingRecords.of(standing, rules))));
    return letters;
  }

  private static SortedMap<String, Outbox.Letter<DossierRecord.OfEdge>> edges(Outcome outcome) {
    SortedMap<String, Outbox.Letter<DossierRecord.OfEdge>> letters = new TreeMap<>();
    for (Edge edge : outcome.edges()) {
      Outbox.Letter<DossierRecord.OfEdge> letter =
          Outbox.Letter.withTombstone(StandingRecords.of(edge));
      letters.put(Keys.edgeUp(edge.child(), edge.parent(), edge.factId()), letter);
      letters.put(Keys.edgeDown(edge.parent(), edge.child(), edge.factId()), letter);
    }
    return letters;
  }

  private static SortedMap<String, Outbox.Letter<PlotChange>> plots(
      Subject subject, Outcome outcome) {
    SortedMap<String, Outbox.Letter<PlotChange>> letters = new TreeMap<>();
    PlotChange left = new PlotChange(subject, Optional.empty());
    outcome
        .place()
        .ifPresent(
            plot -> {
              PlotChange here = new PlotChange(subject, Optional.of(plot));
              IsolationJoin.cellsOf(plot)
                  .forEach(cell -> letters.put(cell, new Outbox.Letter<>(here, Optional.of(left))));
            });
    return letters;
  }

  private static SortedMap<String, Outbox.Letter<ReportChange>> letters(List<Report> reports) {
    SortedMap<String, Outbox.Letter<ReportChange>> letters = new TreeMap<>();
    for (Report report : reports) {
      letters.put(report.receiver().toString(), ReportChange.letter(report));
    }
    return letters;
  }
}
