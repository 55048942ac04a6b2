package org.kornspur.processors.stream;

import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import org.apache.kafka.streams.processor.api.ProcessorContext;
import org.apache.kafka.streams.state.KeyValueStore;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.wire.WireFormat;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.Report;
import org.kornspur.processors.judging.Judge;
import org.kornspur.processors.judging.Outcome;
import org.kornspur.processors.pedigree.Edge;

/**
 * Keeps dossiers in the stores of one task, has them judged, and sends on what changed.
 *
 * <p>A dossier is judged whole each time, from all that it holds. So its outcome cannot depend on
 * the order in which things came.
 */
final class DossierDesk {
  private final Judge judge;
  private final DossierReader reader;
  private final ReportReader reportReader;
  private final StandingRecords standings;
  private final KeyValueStore<String, byte[]> facts;
  private final KeyValueStore<String, String> revocations;
  private final KeyValueStore<String, byte[]> reports;
  private final Outbox outbox;
  private final FaultLog faults;

  DossierDesk(ProcessorContext<String, byte[]> context, WireFormat wire, Judge judge) {
    this.judge = judge;
    facts = context.getStateStore(Stores.DOSSIER_FACTS);
    revocations = context.getStateStore(Stores.DOSSIER_REVOCATIONS);
    reports = context.getStateStore(Stores.DOSSIER_REPORTS);
    reader = new DossierReader(wire, facts, revocations);
    reportReader = new ReportReader(reports);
    standings = new StandingRecords(wire);
    KeyValueStore<String, byte[]> sent = context.getStateStore(Stores.DOSSIER_OUTBOX);
    outbox = new Outbox(context, sent);
    faults = new FaultLog(context, sent);
  }

  /** Files a fact, or the mark that one was superseded. */
  void fileMessage(Subject subject, SubjectMessage message) {
    if (message instanceof SubjectMessage.FactFor fact) {
      facts.put(Keys.of(subject, fact.factId()), fact.wire());
    } else if (message instanceof SubjectMessage.RevocationOf revocation) {
      revocations.put(
          Keys.of(subject, revocation.factId(), revocation.byFactId()), revocation.reason());
    }
  }

  /** Files what a parent, a hybrid or an isolation cell tells. */
  void fileReport(Subject receiver, ReportChange change) {
    String key = Keys.of(receiver, change.sender());
    change
        .report()
        .ifPresentOrElse(
            report -> reports.put(key, InternalJson.write(report)), () -> reports.delete(key));
  }

  /** Judges a dossier again and sends on what changed; returns what was judged. */
  Dossier refresh(Subject subject) {
    Dossier dossier =
        new Dossier(subject, reader.entriesOf(subject), reportReader.reportsTo(subject));
    Outcome outcome = judge.judge(dossier);
    outbox.deliver(subject, Dossiers.TO_STANDINGS, standing(subject, outcome));
    outbox.deliver(subject, Dossiers.TO_EDGES, edges(outcome));
    outbox.deliver(subject, Dossiers.TO_PLOTS, plots(subject, outcome));
    outbox.deliver(subject, Dossiers.TO_REPORTS, reportsBy(outcome));
    faults.note(subject, outcome.faults());
    return dossier;
  }

  private SortedMap<String, Outbox.Letter> standing(Subject subject, Outcome outcome) {
    SortedMap<String, Outbox.Letter> letters = new TreeMap<>();
    outcome
        .standing()
        .ifPresent(
            standing ->
                letters.put(
                    subject.toString(),
                    Outbox.Letter.withTombstone(
                        standings.write(Topics.STANDINGS.topicName(), standing))));
    return letters;
  }

  private SortedMap<String, Outbox.Letter> edges(Outcome outcome) {
    SortedMap<String, Outbox.Letter> letters = new TreeMap<>();
    for (Edge edge : outcome.edges()) {
      Outbox.Letter letter =
          Outbox.Letter.withTombstone(standings.write(Topics.EDGES.topicName(), edge));
      letters.put(Keys.edgeUp(edge.child(), edge.parent(), edge.factId()), letter);
      letters.put(Keys.edgeDown(edge.parent(), edge.child(), edge.factId()), letter);
    }
    return letters;
  }

  private static SortedMap<String, Outbox.Letter> plots(Subject subject, Outcome outcome) {
    SortedMap<String, Outbox.Letter> letters = new TreeMap<>();
    outcome
        .place()
        .ifPresent(
            place -> {
              byte[] left = InternalJson.write(new PlotChange(subject, Optional.empty()));
              byte[] here = InternalJson.write(new PlotChange(subject, Optional.of(place.plot())));
              IsolationJoin.cellsOf(place.plot(), place.outline())
                  .forEach(cell -> letters.put(cell, new Outbox.Letter(here, Optional.of(left))));
            });
    return letters;
  }

  private static SortedMap<String, Outbox.Letter> reportsBy(Outcome outcome) {
    SortedMap<String, Outbox.Letter> letters = new TreeMap<>();
    for (Report report : outcome.reports()) {
      byte[] now = InternalJson.write(new ReportChange(report.sender(), Optional.of(report)));
      byte[] takenBack = InternalJson.write(new ReportChange(report.sender(), Optional.empty()));
      letters.put(report.receiver().toString(), new Outbox.Letter(now, Optional.of(takenBack)));
    }
    return letters;
  }
}
