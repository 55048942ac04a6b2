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
final class Dossiers {
  static final String SUBJECT_MESSAGES = "subject-messages";
  static final String REPORTS = "reports";
  static final String FILE_FACT = "file-fact";
  static final String FILE_REPORT = "file-report";
  static final String JUDGE = "judge-dossier";
  static final String TO_STANDINGS = "to-standings";
  static final String TO_EDGES = "to-edges";
  static final String TO_REPORTS = "to-reports";
  static final String TO_PLOTS = "to-plots";

  private final WireFormat wire;
  private final Supplier<Judge> judges;
  private final StateStores stores;

  Dossiers(WireFormat wire, Supplier<Judge> judges, StateStores stores) {
    this.wire = wire;
    this.judges = judges;
    this.stores = stores;
  }

  void addTo(Topology topology) {
    var progress = new JudgingProgress();
    var bytes = Serdes.ByteArray();
    var keys = Topics.keys();
    topology
        .addSource(
            SUBJECT_MESSAGES,
            keys.deserializer(),
            Topics.subjectMessages().deserializer(),
            Topics.BY_SUBJECT.topicName())
        .addSource(
            REPORTS,
            keys.deserializer(),
            Topics.reports().deserializer(),
            Topics.REPORTS.topicName())
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
            stores.loggedOnceACommit(StateStores.DOSSIER_REMINDERS, Serdes.String()), JUDGE)
        .addSink(
            TO_STANDINGS,
            Topics.STANDINGS.topicName(),
            keys.serializer(),
            Topics.standings(wire),
            JUDGE)
        .addSink(TO_EDGES, Topics.EDGES.topicName(), keys.serializer(), Topics.edges(wire), JUDGE)
        .addSink(
            TO_REPORTS,
            Topics.REPORTS.topicName(),
            keys.serializer(),
            Topics.reports().serializer(),
            JUDGE)
        .addSink(
            TO_PLOTS,
            Topics.PLOTS.topicName(),
            keys.serializer(),
            Topics.plots().serializer(),
            JUDGE);
  }
}
