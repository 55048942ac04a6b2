package org.kornspur.processors.benchmark;

import java.io.IOException;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.IntStream;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.stream.SeasonInPostgres;
import org.kornspur.processors.stream.StateStores;
import org.kornspur.standing.LotStanding;

/**
 * The load of {@code SeasonLoad} with PostgreSQL in the place of the stream: copies of the invented
 * enterprise in several loads, then late results and traces. At the end the standings of the first
 * copy must be those that the stream comes to; so both do the same work.
 *
 * <p>Run from the root of the project, with a PostgreSQL server of your own, and the class path
 * that {@code PostgresComparison} takes:
 *
 * <pre>{@code
 * java -Xmx2g -cp "processors/target/test-classes:processors/target/classes:$(cat processors/target/benchmark.cp)" \
 *     org.kornspur.processors.benchmark.PostgresSeasonLoad \
 *     "jdbc:postgresql://127.0.0.1:5432/postgres?user=postgres" 6 3
 * }</pre>
 *
 * The numbers are copies in a load, and loads.
 */
public final class PostgresSeasonLoad {
  private static final int REPEATED = 20;

  private PostgresSeasonLoad() {}

  public static void main(String[] arguments) throws SQLException, IOException {
    int copies = Integer.parseInt(arguments[1]);
    int loads = Integer.parseInt(arguments[2]);
    List<SpecificRecord> demo = DemoFacts.once();
    try (Connection database = DriverManager.getConnection(arguments[0])) {
      SeasonInPostgres season = new SeasonInPostgres(database);
      for (int load = 0; load < loads; load++) {
        load(season, demo, load * copies, copies);
      }
      compare(season, demo);
      lateResults(season, Math.min(REPEATED, copies * loads));
    }
  }

  private static void load(
      SeasonInPostgres season, List<SpecificRecord> demo, int first, int copies)
      throws SQLException {
    List<SpecificRecord> facts =
        IntStream.range(first, first + copies)
            .mapToObj(copy -> DemoFacts.copy(demo, copy))
            .flatMap(List::stream)
            .toList();
    int judgedBefore = season.judgings();
    long began = System.nanoTime();
    season.take(facts);
    double seconds = (System.nanoTime() - began) / 1e9;
    System.out.printf(
        "%d facts: %.0f a second, %.2f judgings a fact%n",
        facts.size(),
        facts.size() / seconds,
        (season.judgings() - judgedBefore) / (double) facts.size());
  }

  private static void compare(SeasonInPostgres season, List<SpecificRecord> demo)
      throws SQLException {
    Map<String, LotStanding> kept = season.standings();
    try (DrivenDossiers stream = new DrivenDossiers(StateStores.inMemory())) {
      DemoFacts.copy(demo, 0).forEach(stream::accept);
      Map<String, Optional<LotStanding>> judged = stream.newStandings();
      judged.forEach(
          (subject, standing) -> {
            if (standing.isPresent() && !isSame(standing.get(), kept.get(subject))) {
              throw new IllegalStateException(difference(standing.get(), kept.get(subject)));
            }
          });
      System.out.printf("%d standings of the first copy are the same%n", judged.size());
    }
  }

  private static String difference(LotStanding one, LotStanding other) {
    return "The stream and PostgreSQL differ in %s: %s, %s; only the stream: %s; only PostgreSQL: %s"
        .formatted(
            one.getSubject(),
            one.getState(),
            other == null ? "none" : other.getState(),
            without(one, other),
            other == null ? "" : without(other, one));
  }

  private static List<Object> without(LotStanding one, LotStanding other) {
    List<Object> parts = new ArrayList<>(one.getVerdicts());
    parts.addAll(one.getInherited());
    if (other != null) {
      parts.removeAll(other.getVerdicts());
      parts.removeAll(other.getInherited());
    }
    return parts;
  }

  private static boolean isSame(LotStanding one, LotStanding other) {
    return other != null
        && one.getState().equals(other.getState())
        && one.getVerdicts().equals(other.getVerdicts())
        && one.getInherited().equals(other.getInherited());
  }

  /** To the lot with the most descendants of each of some copies. */
  private static void lateResults(SeasonInPostgres season, int copies) throws SQLException {
    List<Double> lateMs = new ArrayList<>();
    List<Double> traceMs = new ArrayList<>();
    int movements = 0;
    String lot = "";
    for (int copy = 0; copy < copies; copy++) {
      lot = season.lotWithMostDescendants("." + copy);
      long began = System.nanoTime();
      movements = season.trace(lot, false).size();
      traceMs.add((System.nanoTime() - began) / 1e6);
      began = System.nanoTime();
      season.take(List.of(PostgresComparison.postControlFailed(Subject.parse(lot))));
      lateMs.add((System.nanoTime() - began) / 1e6);
    }
    System.out.printf(
        "late result to %s with %d movements below it: %.0f ms, its trace forward %.1f ms%n",
        lot, movements, PostgresComparison.median(lateMs), PostgresComparison.median(traceMs));
  }
}
