package org.kornspur.processors.benchmark;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.sql.Timestamp;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.contract.FactHeader;
import org.kornspur.contract.PostControlMethod;
import org.kornspur.contract.PostControlResult;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.contract.SubjectsNamed;
import org.kornspur.processors.pedigree.Edge;
import org.kornspur.processors.pedigree.Pedigree;
import org.kornspur.processors.pedigree.Trace;
import org.kornspur.processors.stream.StateStores;
import org.kornspur.standing.LotStanding;

/**
 * The pedigree of many copies of the invented enterprise, in our store and in PostgreSQL, asked the
 * same questions in turn: trace a lot back, and let a late post-control result reach every
 * descendant. Before anything is timed, both must give the same edges; after each late result, both
 * must have reached the same subjects.
 *
 * <p>What favours PostgreSQL: its trace leaves out how many steps away each ancestor stands, and
 * its late result judges nothing and writes no path, only the new state and the reason. What
 * favours ours: no network between caller and store, and the late result goes through the topology
 * in one thread, with its stores in memory and without a broker; in the running system each step
 * down the pedigree costs a transaction (100 ms at most, by its commit interval) on top. PostgreSQL
 * commits to disk as it is configured.
 *
 * <p>Run from the root of the project, with a PostgreSQL server of your own:
 *
 * <pre>{@code
 * java -Xmx2g -Djava.io.tmpdir=/dev/shm -cp "processors/target/test-classes:processors/target/classes:$(cat processors/target/benchmark.cp)" \
 *     org.kornspur.processors.benchmark.PostgresComparison \
 *     "jdbc:postgresql://127.0.0.1:5432/postgres?user=postgres" 185 20
 * }</pre>
 *
 * The numbers are copies in both stores (185 are 100,000 lots) and copies whose facts all go
 * through the topology as well, of which each takes one late result of a kind.
 */
public final class PostgresComparison {
  private static final int WARM_UP = 200;
  private static final int TRACES = 500;

  private static final String TRACE_BACK =
      """
      with recursive ancestor (subject_id) as (
        select subject_id from subject where name = ?
        union
        select movement.parent_id
          from ancestor join movement on movement.child_id = ancestor.subject_id
      )
      select parent.name, child.name, movement.mass_kg, movement.moved_by, movement.fact_id,
             movement.happened_at
        from ancestor
        join movement on movement.child_id = ancestor.subject_id
        join subject parent on parent.subject_id = movement.parent_id
        join subject child on child.subject_id = movement.child_id
      """;

  private static final String RECORD_POST_CONTROL =
      """
      insert into post_control (fact_id, lot_id, plants_examined, identity_confirmed)
      select ?, subject_id, 1000, false from subject where name = ?
      """;

  private static final String CONDEMN_DESCENDANTS =
      """
      with recursive descendant (subject_id, origin_id) as (
        select lot_id, lot_id from post_control where fact_id = ?
        union
        select movement.child_id, descendant.origin_id
          from descendant
          join movement on movement.parent_id = descendant.subject_id
      ),
      reason as (
        insert into inherited_trouble (subject_id, origin_id, fact_id)
        select subject_id, origin_id, ? from descendant where subject_id <> origin_id
      )
      update subject set state = 'NOT_FIT'
       where subject_id in (select subject_id from descendant)
      returning name
      """;

  private final List<SpecificRecord> facts = DemoFacts.once();
  private final int copies;
  private final int drivenCopies;
  private final Connection database;

  private PostgresComparison(Connection database, int copies, int drivenCopies) {
    this.database = database;
    this.copies = copies;
    this.drivenCopies = drivenCopies;
  }

  public static void main(String[] arguments) throws SQLException, IOException {
    if (arguments.length != 3) {
      throw new IllegalArgumentException(
          "Three arguments are wanted: the JDBC address, copies of the enterprise, copies driven"
              + " through the topology.");
    }
    try (Connection database = DriverManager.getConnection(arguments[0])) {
      new PostgresComparison(
              database, Integer.parseInt(arguments[1]), Integer.parseInt(arguments[2]))
          .run();
    }
  }

  private void run() throws SQLException, IOException {
    try (DrivenDossiers topology = new DrivenDossiers(StateStores.inMemory())) {
      drive(topology);
      List<Edge> original = edgesOfFirstCopy(topology.pedigree());
      System.out.printf("%d edges a copy, %d copies%n", original.size(), copies);
      fillDatabase(original);
      System.out.println("| Question | ours, ms | PostgreSQL, ms | PostgreSQL / ours |");
      System.out.println("|---|---|---|---|");
      for (boolean inMemory : new boolean[] {false, true}) {
        compareTraces(original, inMemory);
      }
      compareLateResults(topology, original);
    }
  }

  private void drive(DrivenDossiers topology) {
    long begun = System.nanoTime();
    for (int copy = 0; copy < drivenCopies; copy++) {
      DemoFacts.copy(facts, copy).forEach(topology::accept);
      topology.newStandings();
    }
    System.out.printf(
        "%d facts through the topology in %d s%n",
        (long) facts.size() * drivenCopies, (System.nanoTime() - begun) / 1_000_000_000);
  }

  /** Edges that count after all corrections, with the ids of the first copy. */
  private List<Edge> edgesOfFirstCopy(Pedigree pedigree) {
    Set<Edge> edges = new HashSet<>();
    for (Subject seed : seedNamed()) {
      edges.addAll(pedigree.edgesInto(seed));
    }
    return List.copyOf(edges);
  }

  private Set<Subject> seedNamed() {
    return DemoFacts.copy(facts, 0).stream()
        .flatMap(fact -> SubjectsNamed.of(fact).stream())
        .filter(
            subject -> subject.kind() == Subject.Kind.LOT || subject.kind() == Subject.Kind.CROP)
        .collect(Collectors.toCollection(TreeSet::new));
  }

  private static Edge ofCopy(Edge edge, int copy) {
    return new Edge(
        ofCopy(edge.parent(), copy),
        ofCopy(edge.child(), copy),
        edge.massKg(),
        edge.by(),
        ofCopy(edge.factId(), copy),
        edge.happenedAt());
  }

  private static Subject ofCopy(Subject subject, int copy) {
    return new Subject(subject.kind(), ofCopy(subject.id(), copy));
  }

  /** Ids of the first copy end in its number, 0. */
  private static String ofCopy(String idOfFirst, int copy) {
    return DemoFacts.renamed(idOfFirst.substring(0, idOfFirst.lastIndexOf('.')), copy);
  }

  private void fillDatabase(List<Edge> original) throws SQLException, IOException {
    try (InputStream script = getClass().getResourceAsStream("pedigree.sql");
        Statement statement = database.createStatement()) {
      statement.execute(new String(script.readAllBytes(), StandardCharsets.UTF_8));
    }
    database.setAutoCommit(false);
    Map<Subject, Integer> ids = new HashMap<>();
    try (PreparedStatement subject =
            database.prepareStatement("insert into subject values (?, ?, ?, 'FIT')");
        PreparedStatement movement =
            database.prepareStatement("insert into movement values (?, ?, ?, ?, ?, ?)")) {
      for (int copy = 0; copy < copies; copy++) {
        for (Edge edge : original) {
          insert(subject, movement, ids, ofCopy(edge, copy));
        }
        subject.executeBatch();
        movement.executeBatch();
      }
      for (Edge edge : PedigreeStore.thousandAncestorsInSixSteps()) {
        insert(subject, movement, ids, edge);
      }
      subject.executeBatch();
      movement.executeBatch();
    }
    database.commit();
    database.setAutoCommit(true);
    try (Statement statement = database.createStatement()) {
      statement.execute("vacuum analyze");
    }
    System.out.printf("%d subjects in the database%n", ids.size());
  }

  private static void insert(
      PreparedStatement subject, PreparedStatement movement, Map<Subject, Integer> ids, Edge edge)
      throws SQLException {
    for (Subject end : List.of(edge.parent(), edge.child())) {
      if (!ids.containsKey(end)) {
        ids.put(end, ids.size());
        subject.setInt(1, ids.get(end));
        subject.setString(2, end.kind().name());
        subject.setString(3, end.toString());
        subject.addBatch();
      }
    }
    movement.setInt(1, ids.get(edge.parent()));
    movement.setInt(2, ids.get(edge.child()));
    movement.setString(3, edge.factId());
    movement.setDouble(4, edge.massKg());
    movement.setString(5, edge.by().contractName());
    movement.setTimestamp(6, Timestamp.from(edge.happenedAt()));
    movement.addBatch();
  }

  private void compareTraces(List<Edge> original, boolean inMemory) throws SQLException {
    StateStores kept =
        inMemory ? StateStores.onDisk().withPedigreeInMemory() : StateStores.onDisk();
    try (PedigreeStore store = new PedigreeStore(kept);
        PreparedStatement query = database.prepareStatement(TRACE_BACK)) {
      for (int copy = 0; copy < copies; copy++) {
        for (Edge edge : original) {
          store.put(ofCopy(edge, copy));
        }
      }
      PedigreeStore.thousandAncestorsInSixSteps().forEach(store::put);
      store.flush();
      Pedigree pedigree = store.reader();
      Subject deepest = deepest(pedigree, original);
      List<Subject> deepLots = new ArrayList<>();
      for (int copy = 0; copy < copies; copy++) {
        deepLots.add(ofCopy(deepest, copy));
      }
      String where = inMemory ? ", pedigree in memory" : ", pedigree on disk";
      compareTrace("trace back " + size(pedigree, deepest) + where, pedigree, query, deepLots);
      Subject wide = Subject.lot("start");
      compareTrace("trace back " + size(pedigree, wide) + where, pedigree, query, List.of(wide));
    }
  }

  private static Subject deepest(Pedigree pedigree, List<Edge> original) {
    Subject deepest = original.get(0).child();
    int most = 0;
    for (Edge edge : original) {
      if (edge.child().kind() == Subject.Kind.LOT) {
        int ancestors = walk(pedigree, edge.child(), Trace.Direction.BACK).steps().size();
        if (ancestors > most) {
          most = ancestors;
          deepest = edge.child();
        }
      }
    }
    return deepest;
  }

  private static String size(Pedigree pedigree, Subject start) {
    Trace trace = walk(pedigree, start, Trace.Direction.BACK);
    int steps = trace.steps().values().stream().mapToInt(Integer::intValue).max().orElseThrow();
    return "to %d ancestors in %d steps".formatted(trace.steps().size() - 1, steps);
  }

  private static Trace walk(Pedigree pedigree, Subject start, Trace.Direction direction) {
    return Trace.walk(pedigree, start, direction, 100_000);
  }

  private void compareTrace(
      String question, Pedigree pedigree, PreparedStatement query, List<Subject> starts)
      throws SQLException {
    List<Double> ours = new ArrayList<>();
    List<Double> theirs = new ArrayList<>();
    for (int i = 0; i < WARM_UP + TRACES; i++) {
      Subject start = starts.get(i % starts.size());
      long begun = System.nanoTime();
      List<Edge> walked = walk(pedigree, start, Trace.Direction.BACK).edges();
      long between = System.nanoTime();
      List<Edge> queried = traceBySql(query, start);
      long ended = System.nanoTime();
      if (i < starts.size() && !Set.copyOf(walked).equals(Set.copyOf(queried))) {
        throw new IllegalStateException("The two give different edges behind " + start);
      }
      if (i >= WARM_UP) {
        ours.add((between - begun) / 1e6);
        theirs.add((ended - between) / 1e6);
      }
    }
    report(question, ours, theirs);
  }

  private static List<Edge> traceBySql(PreparedStatement query, Subject start) throws SQLException {
    query.setString(1, start.toString());
    List<Edge> edges = new ArrayList<>();
    try (ResultSet rows = query.executeQuery()) {
      while (rows.next()) {
        edges.add(
            new Edge(
                Subject.parse(rows.getString(1)),
                Subject.parse(rows.getString(2)),
                rows.getDouble(3),
                FactType.named(rows.getString(4)).orElseThrow(),
                rows.getString(5),
                rows.getTimestamp(6).toInstant()));
      }
    }
    return edges;
  }

  /** A lot high up, with the most descendants, and one whose seed went into fewest but some. */
  private void compareLateResults(DrivenDossiers topology, List<Edge> original)
      throws SQLException {
    Map<Subject, Integer> descendants = new HashMap<>();
    Pedigree pedigree = topology.pedigree();
    for (Edge edge : original) {
      if (edge.parent().kind() == Subject.Kind.LOT) {
        descendants.put(edge.parent(), descendantsOf(pedigree, edge.parent()).size());
      }
    }
    Subject most =
        descendants.keySet().stream()
            .max(Comparator.<Subject>comparingInt(descendants::get).thenComparing(Subject::id))
            .orElseThrow();
    Subject few =
        descendants.keySet().stream()
            .filter(lot -> descendants.get(lot) >= 5 && !lot.equals(most))
            .min(Comparator.<Subject>comparingInt(descendants::get).thenComparing(Subject::id))
            .orElseThrow();
    for (Subject origin : List.of(few, most)) {
      compareLateResult(topology, origin, descendants.get(origin));
    }
  }

  private static Set<String> descendantsOf(Pedigree pedigree, Subject origin) {
    return walk(pedigree, origin, Trace.Direction.FORWARD).steps().keySet().stream()
        .filter(subject -> !subject.equals(origin))
        .map(Subject::toString)
        .collect(Collectors.toSet());
  }

  private void compareLateResult(DrivenDossiers topology, Subject originOfFirst, int descendants)
      throws SQLException {
    List<Double> ours = new ArrayList<>();
    List<Double> theirs = new ArrayList<>();
    for (int copy = 0; copy < drivenCopies; copy++) {
      Subject origin = ofCopy(originOfFirst, copy);
      Set<String> expected = descendantsOf(topology.pedigree(), origin);
      PostControlResult late = postControlFailed(origin);
      long begun = System.nanoTime();
      topology.accept(late);
      long between = System.nanoTime();
      Set<String> condemned = condemnBySql(late, origin);
      long ended = System.nanoTime();
      condemned.remove(origin.toString());
      Set<String> reached = reachedBy(late, topology.newStandings());
      if (!reached.equals(expected) || !condemned.equals(expected)) {
        throw new IllegalStateException(
            "Behind %s lie %d, ours reached %d, PostgreSQL %d"
                .formatted(origin, expected.size(), reached.size(), condemned.size()));
      }
      if (copy >= drivenCopies / 4) {
        ours.add((between - begun) / 1e6);
        theirs.add((ended - between) / 1e6);
      }
    }
    report(
        "late post-control result to " + descendants + " descendants, topology without broker",
        ours,
        theirs);
  }

  static PostControlResult postControlFailed(Subject lot) {
    Instant when = Instant.parse("2026-11-02T08:00:00Z");
    return new PostControlResult(
        new FactHeader("late-" + lot.id(), "benchmark", when, when, "invented", null, null),
        lot.id(),
        PostControlMethod.PLOT,
        "plot of " + lot.id(),
        1000,
        false,
        0,
        null,
        null,
        null,
        null,
        null,
        null);
  }

  private Set<String> condemnBySql(PostControlResult late, Subject origin) throws SQLException {
    Set<String> condemned = new HashSet<>();
    String factId = late.getHeader().getFactId();
    database.setAutoCommit(false);
    try (PreparedStatement record = database.prepareStatement(RECORD_POST_CONTROL);
        PreparedStatement condemn = database.prepareStatement(CONDEMN_DESCENDANTS)) {
      record.setString(1, factId);
      record.setString(2, origin.toString());
      record.executeUpdate();
      condemn.setString(1, factId);
      condemn.setString(2, factId);
      try (ResultSet rows = condemn.executeQuery()) {
        while (rows.next()) {
          condemned.add(rows.getString(1));
        }
      }
      database.commit();
    }
    database.setAutoCommit(true);
    return condemned;
  }

  private static Set<String> reachedBy(
      PostControlResult late, Map<String, Optional<LotStanding>> standings) {
    String factId = late.getHeader().getFactId();
    return standings.entrySet().stream()
        .filter(
            entry ->
                entry.getValue().stream()
                    .flatMap(standing -> standing.getInherited().stream())
                    .anyMatch(trouble -> trouble.getFactIds().contains(factId)))
        .map(Map.Entry::getKey)
        .collect(Collectors.toSet());
  }

  private static void report(String question, List<Double> ours, List<Double> theirs) {
    System.out.printf(
        "| %s | %.2f | %.2f | %.2f |%n",
        question, median(ours), median(theirs), median(theirs) / median(ours));
  }

  static double median(List<Double> values) {
    return values.stream().sorted().toList().get(values.size() / 2);
  }
}
