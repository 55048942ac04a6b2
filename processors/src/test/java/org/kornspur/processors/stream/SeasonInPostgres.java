package org.kornspur.processors.stream;

import static org.kornspur.processors.stream.SeasonTables.Column.numbers;
import static org.kornspur.processors.stream.SeasonTables.Column.records;
import static org.kornspur.processors.stream.SeasonTables.Column.texts;

import java.io.IOException;
import java.sql.Connection;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.contract.SubjectsNamed;
import org.kornspur.ingest.intake.FactChecks;
import org.kornspur.ingest.registry.LocalSchemaRegistry;
import org.kornspur.ingest.wire.WireFormat;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.LaboratoryResults;
import org.kornspur.processors.dossier.Report;
import org.kornspur.processors.ground.IsolationCells;
import org.kornspur.processors.ground.PlaceableFacts;
import org.kornspur.processors.ground.Plot;
import org.kornspur.processors.judging.Judge;
import org.kornspur.processors.judging.Outcome;
import org.kornspur.processors.judging.Plots;
import org.kornspur.processors.pedigree.Edge;
import org.kornspur.processors.pedigree.Edges;
import org.kornspur.processors.standards.Rulebooks;
import org.kornspur.standing.LotStanding;

/**
 * What a team would build that has no stream: facts in tables of PostgreSQL, put there in batches,
 * and one program that judges what they touch by the same gates, parents before children, until
 * nothing changes any more. It does the same work as the processors, but for the chain of the log.
 */
public final class SeasonInPostgres {
  private static final int FACTS_AT_ONCE = 2_000;
  private static final int DOSSIERS_AT_ONCE = 400;
  private static final Set<Subject.Kind> FIRST =
      Set.of(Subject.Kind.HYBRID, Subject.Kind.SOURCE, Subject.Kind.ENTERPRISE);

  private final WireFormat wire = new WireFormat(new LocalSchemaRegistry());
  private final Judge judge = Judge.by(Rulebooks.bundled());
  private final SeasonTables tables;
  private final Map<Subject, Set<Subject>> parents = new HashMap<>();
  private final Set<Subject> touched = new LinkedHashSet<>();
  private final Map<Subject, Set<String>> askers = new HashMap<>();
  private int judgings;

  public SeasonInPostgres(Connection database) throws SQLException, IOException {
    tables = new SeasonTables(database);
  }

  /** How many dossiers were judged, those again that were told something. */
  public int judgings() {
    return judgings;
  }

  /** Takes facts in, and judges until all standings are settled. */
  public void take(List<SpecificRecord> facts) throws SQLException {
    for (int from = 0; from < facts.size(); from += FACTS_AT_ONCE) {
      insert(facts.subList(from, Math.min(facts.size(), from + FACTS_AT_ONCE)));
    }
    place(touched.stream().filter(SeasonInPostgres::hasPlace).toList());
    while (!touched.isEmpty()) {
      List<Subject> ready = ready();
      for (int from = 0; from < ready.size(); from += DOSSIERS_AT_ONCE) {
        judge(ready.subList(from, Math.min(ready.size(), from + DOSSIERS_AT_ONCE)));
      }
    }
  }

  /** The standing of every crop and lot. */
  public Map<String, LotStanding> standings() throws SQLException {
    Map<String, LotStanding> found = new TreeMap<>();
    tables.read(
        row -> found.put(row.getString(1), (LotStanding) wire.decode(row.getBytes(2))),
        "select subject, record from standing");
    return found;
  }

  /** The lot with most descendants, whose id ends as told. */
  public String lotWithMostDescendants(String ending) throws SQLException {
    return tables
        .read(
            row -> row.getString(1),
            """
            with recursive descendant (origin, subject) as (
              select distinct parent, child from movement where parent like 'lot:%' || (?)[1]
              union
              select origin, child from descendant join movement on movement.parent = subject
            )
            select origin from descendant group by origin order by count(*) desc, origin limit 1
            """,
            texts(List.of(ending)))
        .get(0);
  }

  /** All that a lot came from, or that came from it. */
  public List<String> trace(String subject, boolean back) throws SQLException {
    return tables.read(
        row -> row.getString(1),
        """
        with recursive found (subject) as (
          select (?)[1]
          union
          select %s from found join movement on movement.%s = found.subject
        )
        select movement.parent from found join movement on movement.%2$s = found.subject
        """
            .formatted(back ? "parent" : "child", back ? "child" : "parent"),
        texts(List.of(subject)));
  }

  private void insert(List<SpecificRecord> facts) throws SQLException {
    List<String> ids = new ArrayList<>();
    List<byte[]> wires = new ArrayList<>();
    List<String> heldBy = new ArrayList<>();
    List<String> held = new ArrayList<>();
    List<String> revoked = new ArrayList<>();
    List<String> revokedBy = new ArrayList<>();
    List<String> notes = new ArrayList<>();
    Letters asked = new Letters();
    for (SpecificRecord fact : facts) {
      if (!FactChecks.check(fact).isEmpty() || !PlaceableFacts.problemsOf(fact).isEmpty()) {
        continue;
      }
      String id = FactType.idOf(fact);
      ids.add(id);
      wires.add(wire.encode(Topics.FACTS.topicName(), fact));
      for (Subject subject : SubjectsNamed.of(fact)) {
        heldBy.add(subject.toString());
        held.add(id);
        touched.add(subject);
        LaboratoryResults.kindOf(fact)
            .flatMap(kind -> LaboratoryResults.laboratoryOf(fact))
            .filter(laboratory -> subject.kind() == Subject.Kind.LOT)
            .ifPresent(laboratory -> asked.add(new Report.AsksLaboratory(subject, laboratory)));
      }
      Edges.of(fact)
          .forEach(
              edge ->
                  parents.computeIfAbsent(edge.child(), of -> new HashSet<>()).add(edge.parent()));
      FactIntakeProcessor.supersededBy(fact)
          .ifPresent(
              revocation -> {
                revoked.add(revocation.supersededFactId());
                revokedBy.add(id);
                notes.add(revocation.reason());
              });
    }
    tables.write(
        "insert into fact select * from unnest(?, ?) on conflict do nothing",
        texts(ids),
        records(wires));
    tables.write(
        "insert into held select * from unnest(?, ?) on conflict do nothing",
        texts(heldBy),
        texts(held));
    tables.write(
        "insert into revocation select * from unnest(?, ?, ?) on conflict do nothing",
        texts(revoked),
        texts(revokedBy),
        texts(notes));
    touched.addAll(
        tables.read(
            row -> Subject.parse(row.getString(1)),
            "select distinct subject from held where fact_id = any (?)",
            texts(revoked)));
    send(asked);
    tables.commit();
  }

  /** Those that others wait for; else those of which no parent is still to be judged. */
  private List<Subject> ready() {
    List<Subject> ready =
        touched.stream().filter(subject -> FIRST.contains(subject.kind())).toList();
    if (ready.isEmpty()) {
      ready =
          touched.stream()
              .filter(
                  subject ->
                      parents.getOrDefault(subject, Set.of()).stream()
                          .noneMatch(parent -> touched.contains(parent) && !parent.equals(subject)))
              .toList();
    }
    List<Subject> taken = ready.isEmpty() ? List.copyOf(touched) : ready;
    touched.removeAll(Set.copyOf(taken));
    return taken;
  }

  private void judge(List<Subject> subjects) throws SQLException {
    judgings += subjects.size();
    Map<Subject, Set<String>> asking = new HashMap<>();
    subjects.forEach(
        subject ->
            Optional.ofNullable(askers.remove(subject)).ifPresent(a -> asking.put(subject, a)));
    List<Judged> judged =
        dossiers(subjects, asking).parallelStream()
            .map(dossier -> new Judged(dossier.subject(), judge.judge(dossier)))
            .toList();
    store(judged);
    Letters letters = new Letters();
    judged.forEach(one -> one.outcome().reports().forEach(letters::add));
    takeBack(
        judged.stream()
            .map(one -> one.subject().toString())
            .filter(subject -> !asking.containsKey(Subject.parse(subject)))
            .toList(),
        letters);
    send(letters);
    Map<Subject, Optional<Plot>> places = new HashMap<>();
    judged.stream()
        .filter(one -> hasPlace(one.subject()))
        .forEach(one -> places.put(one.subject(), one.outcome().place()));
    move(places);
    tables.commit();
  }

  private record Judged(Subject subject, Outcome outcome) {}

  private static boolean hasPlace(Subject subject) {
    return subject.kind() == Subject.Kind.CROP || subject.kind() == Subject.Kind.SOURCE;
  }

  private List<Dossier> dossiers(List<Subject> subjects, Map<Subject, Set<String>> asking)
      throws SQLException {
    SeasonTables.Column which = texts(names(subjects));
    RowsAsStore<byte[]> facts = new RowsAsStore<>();
    RowsAsStore<String> revocations = new RowsAsStore<>();
    Map<String, List<Report>> reports = new HashMap<>();
    tables.read(
        row -> {
          facts.put(Keys.of(row.getString(1), row.getString(2)), row.getBytes(3));
          return row;
        },
        """
        select held.subject, fact_id, fact.record from held join fact using (fact_id)
         where held.subject = any (?)
        """,
        which);
    tables.read(
        row -> {
          revocations.put(
              Keys.of(row.getString(1), row.getString(2), row.getString(3)), row.getString(4));
          return row;
        },
        """
        select held.subject, fact_id, by_fact_id, note from held join revocation using (fact_id)
         where held.subject = any (?)
        """,
        which);
    tables.read(
        row ->
            reports
                .computeIfAbsent(row.getString(1), of -> new ArrayList<>())
                .add(ReportReader.read(row.getBytes(2))),
        "select receiver, record from report where receiver = any (?)",
        which);
    DossierReader reader = new DossierReader(wire, facts, revocations, true);
    return subjects.parallelStream()
        .map(
            subject ->
                new Dossier(
                    subject,
                    reader.heldBy(subject).entries(),
                    reports.getOrDefault(subject.toString(), List.of()).stream()
                        .filter(
                            report ->
                                !asking.containsKey(subject)
                                    || asking.get(subject).contains(report.sender()))
                        .toList()))
        .toList();
  }

  private void store(List<Judged> judged) throws SQLException {
    List<String> subjects = new ArrayList<>();
    List<byte[]> standings = new ArrayList<>();
    List<String> toldBy = new ArrayList<>();
    List<Edge> edges = new ArrayList<>();
    for (Judged one : judged) {
      one.outcome()
          .standing()
          .ifPresent(
              standing -> {
                subjects.add(one.subject().toString());
                standings.add(
                    wire.encode(
                        Topics.STANDINGS.topicName(), StandingRecords.publicForm(standing)));
              });
      one.outcome()
          .edges()
          .forEach(
              edge -> {
                toldBy.add(one.subject().toString());
                edges.add(edge);
              });
    }
    tables.write(
        """
        insert into standing select * from unnest(?, ?)
        on conflict (subject) do update set record = excluded.record
        """,
        texts(subjects),
        records(standings));
    tables.write(
        "delete from movement where told_by = any (?)",
        texts(names(judged.stream().map(Judged::subject).toList())));
    tables.write(
        "insert into movement select * from unnest(?, ?, ?, ?, ?) on conflict do nothing",
        texts(toldBy),
        texts(edges.stream().map(edge -> edge.parent().toString()).toList()),
        texts(edges.stream().map(edge -> edge.child().toString()).toList()),
        texts(edges.stream().map(Edge::factId).toList()),
        numbers(edges.stream().map(Edge::massKg).toList()));
  }

  /** Reports that are sent together, as columns. */
  private static final class Letters {
    private final List<String> receivers = new ArrayList<>();
    private final List<String> senders = new ArrayList<>();
    private final List<byte[]> records = new ArrayList<>();
    private final Set<List<String>> pairs = new HashSet<>();

    void add(Report report) {
      String receiver = report.receiver().toString();
      if (pairs.add(List.of(receiver, report.sender()))) {
        receivers.add(receiver);
        senders.add(report.sender());
        records.add(InternalSerdes.write(report, Report.class));
      }
    }
  }

  private void takeBack(List<String> senders, Letters sent) throws SQLException {
    touch(
        tables.read(
            row -> List.of(row.getString(1), row.getString(2)),
            """
            delete from report where sender = any (?) and (receiver, sender) not in
              (select * from unnest(?, ?)) returning receiver, sender
            """,
            texts(senders),
            texts(sent.receivers),
            texts(sent.senders)));
  }

  private void send(Letters letters) throws SQLException {
    touch(
        tables.read(
            row -> List.of(row.getString(1), row.getString(2)),
            """
            insert into report select * from unnest(?, ?, ?)
            on conflict (receiver, sender) do update set record = excluded.record
             where report.record <> excluded.record
            returning receiver, sender
            """,
            texts(letters.receivers),
            texts(letters.senders),
            records(letters.records)));
  }

  private void touch(List<List<String>> receiversAndSenders) {
    for (List<String> pair : receiversAndSenders) {
      Subject receiver = Subject.parse(pair.get(0));
      boolean isNew = touched.add(receiver);
      if (receiver.kind() == Subject.Kind.ENTERPRISE && (isNew || askers.containsKey(receiver))) {
        askers.computeIfAbsent(receiver, of -> new HashSet<>()).add(pair.get(1));
      }
    }
  }

  /** Before anything is judged, so that crops know of each other when they are. */
  private void place(List<Subject> subjects) throws SQLException {
    Map<Subject, Optional<Plot>> places = new HashMap<>();
    for (Dossier dossier : dossiers(subjects, Map.of())) {
      places.put(dossier.subject(), Plots.ofWhatCanBePlaced(dossier));
    }
    move(places);
    tables.commit();
  }

  private void move(Map<Subject, Optional<Plot>> places) throws SQLException {
    List<String> cells = new ArrayList<>();
    List<String> subjects = new ArrayList<>();
    List<byte[]> records = new ArrayList<>();
    places.forEach(
        (subject, place) ->
            place.ifPresent(
                plot -> {
                  byte[] record = InternalSerdes.write(plot, Plot.class);
                  for (String cell : IsolationJoin.cellsOf(plot)) {
                    cells.add(cell);
                    subjects.add(subject.toString());
                    records.add(record);
                  }
                }));
    Set<String> changed = new HashSet<>();
    changed.addAll(
        tables.read(
            row -> row.getString(1),
            """
            delete from plot where subject = any (?) and (cell, subject) not in
              (select * from unnest(?, ?)) returning cell
            """,
            texts(names(places.keySet())),
            texts(cells),
            texts(subjects)));
    changed.addAll(
        tables.read(
            row -> row.getString(1),
            """
            insert into plot select * from unnest(?, ?, ?)
            on conflict (cell, subject) do update set record = excluded.record
             where plot.record <> excluded.record
            returning cell
            """,
            texts(cells),
            texts(subjects),
            records(records)));
    tellCrops(changed);
  }

  private void tellCrops(Collection<String> cells) throws SQLException {
    Map<String, List<Plot>> grounds = new HashMap<>();
    tables.read(
        row ->
            grounds
                .computeIfAbsent(row.getString(1), of -> new ArrayList<>())
                .add(InternalSerdes.read(row.getBytes(2), Plot.class)),
        "select cell, record from plot where cell = any (?)",
        texts(cells));
    List<Report.FromGround> told =
        grounds.entrySet().parallelStream()
            .flatMap(ground -> told(ground.getKey(), ground.getValue()))
            .toList();
    Letters letters = new Letters();
    told.forEach(letters::add);
    takeBack(List.copyOf(cells), letters);
    send(letters);
  }

  private static Stream<Report.FromGround> told(String cell, List<Plot> plots) {
    IsolationCellIndex ground = IsolationCellIndex.of(IsolationCells.yearOf(cell), plots);
    return plots.stream()
        .map(Plot::subject)
        .map(
            crop ->
                new Report.FromGround(
                    cell, crop, ground.near(crop), ground.earlier(crop), ground.sameGround(crop)))
        .filter(
            report ->
                !report.neighbours().isEmpty()
                    || !report.earlier().isEmpty()
                    || !report.sameGround().isEmpty());
  }

  private static List<String> names(Collection<Subject> subjects) {
    return subjects.stream().map(Subject::toString).collect(Collectors.toList());
  }
}
