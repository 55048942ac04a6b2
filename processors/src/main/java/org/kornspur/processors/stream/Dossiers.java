package org.kornspur.processors.stream;

import java.util.function.Supplier;
import org.apache.kafka.common.serialization.Serdes;
import org.apache.kafka.streams.Topology;
import org.kornspur.ingest.wire.WireFormat;
import org.kornspur.processors.judging.Judge;

/**
 * One dossier for each subject: facts in, reports of parents, hybrids and the ground in; standing,
 * edges, reports to children and the plot out, each only when it changed. Facts and reports are
 * filed as they come; a dossier is judged for all that has come.
 */
record Dossiers(WireFormat wire, Supplier<Judge> judges, StateStores stores) {
  static final String SUBJECT_MESSAGES = "subject-messages";
  static final String REPORTS = "reports";
  static final String FILE_FACT = "file-fact";
  static final String FILE_REPORT = "file-report";
  static final String JUDGE = "judge-dossier";
  static final String TO_STANDINGS = "to-standings";
  static final String TO_EDGES = "to-edges";
  static final String TO_REPORTS = "to-reports";
  static final String TO_PLOTS = "to-plots";

  void addTo(Topology topology) {
    var progress = new JudgingProgress();
    var bytes = Serdes.ByteArray();
    Topics.BY_SUBJECT.addSource(topology, SUBJECT_MESSAGES, Topics.subjectMessages());
    Topics.REPORTS.addSource(topology, REPORTS, Topics.reports());
    topology
        .addProcessor(FILE_FACT, () -> new FactFiling(wire), SUBJECT_MESSAGES)
        .addProcessor(FILE_REPORT, ReportFiling::new, REPORTS)
        .addProcessor(
            JUDGE, () -> new DossierJudging(wire, judges, progress), FILE_FACT, FILE_REPORT)
        .addStateStore(stores.logged(StateStores.DOSSIER_FACTS, bytes), FILE_FACT, JUDGE)
        .addStateStore(
            stores.logged(StateStores.DOSSIER_REVOCATIONS, Serdes.String()), FILE_FACT, JUDGE)
        .addStateStore(stores.logged(StateStores.DOSSIER_REPORTS, bytes), FILE_REPORT, JUDGE)
        .addStateStore(stores.logged(StateStores.DOSSIER_OUTBOX, bytes), JUDGE)
        .addStateStore(
            stores.loggedOnceACommit(StateStores.DOSSIER_REMINDERS, Serdes.String()), JUDGE);
    Topics.STANDINGS.addSink(topology, TO_STANDINGS, Topics.standings(wire), JUDGE);
    Topics.EDGES.addSink(topology, TO_EDGES, Topics.edges(wire), JUDGE);
    Topics.REPORTS.addSink(topology, TO_REPORTS, Topics.reports().serializer(), JUDGE);
    Topics.PLOTS.addSink(topology, TO_PLOTS, Topics.plots().serializer(), JUDGE);
  }
}
