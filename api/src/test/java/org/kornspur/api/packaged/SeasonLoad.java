package org.kornspur.api.packaged;

import java.io.BufferedReader;
import java.io.File;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.kornspur.api.rest.InventedFacts;

/**
 * Sends copies of the invented enterprise to the packaged server, all at once, and measures until
 * every standing is settled; then how long one fact takes while nothing else is to be done, what
 * was written for each fact, how long pages take, and how long the server takes to be ready again.
 * The first load is slow, because Java compiles while it runs. All figures are written to {@code
 * target/checks/season-load.md}, with what the broker alone would do in the same run.
 *
 * <p>From the folder {@code api}, with the packaged server in {@code target} or named by its jar:
 *
 * <pre>{@code
 * mvn -q -f .. package -DskipTests && mvn -q dependency:build-classpath -Dmdep.outputFile=target/benchmark.cp
 * java -cp "target/test-classes:target/classes:$(cat target/benchmark.cp)" \
 *     org.kornspur.api.packaged.SeasonLoad 8,30 3 [quarkus-run.jar ...]
 * }</pre>
 *
 * <p>The first numbers are how many copies are sent, of some 3,000 facts each, to a fresh server
 * each; the second is how many times it is sent others. Of several servers one after the other is
 * measured, so that they can be compared in one run. {@code -Dserver.options} gives them further
 * options of Java, such as those of a profiler.
 */
public final class SeasonLoad {
  private static final Duration LONGEST = Duration.ofMinutes(60);
  private static final Duration UNREADY_STILL = Duration.ofSeconds(1);
  private static final Path REPORT = Path.of("target", "checks", "season-load.md");

  private static final String LOT_WITH_MOST_DESCENDANTS = "P22-C-01";
  private static final int MOST_LATE_RESULTS = 9;

  /** Of the first copy; the lot has four seasons of ancestors. */
  private static final List<String> PAGES =
      List.of(
          "/desk",
          "/lots",
          "/lots/L25-S05-P1.0",
          "/seasons",
          "/api/v1/lots/L25-S05-P1.0/dossier.pdf?appendix=true");

  private final int copies;
  private final int loads;
  private final OneMachine machine;
  private final LoadReport report;
  private final Path folder;

  private SeasonLoad(int copies, int loads, Path folder, OneMachine machine, LoadReport report) {
    this.report = report;
    this.copies = copies;
    this.loads = loads;
    this.folder = folder;
    this.machine = machine;
  }

  public static void main(String[] arguments) throws Exception {
    int[] sizes = Stream.of(arguments[0].split(",")).mapToInt(Integer::parseInt).toArray();
    int loads = Integer.parseInt(arguments[1]);
    List<Path> servers =
        arguments.length > 2
            ? Arrays.stream(arguments).skip(2).map(Path::of).toList()
            : List.of(PackagedPrograms.application());
    LoadReport report = new LoadReport();
    for (int copies : sizes) {
      for (Path server : servers) {
        Path folder = Files.createTempDirectory("season-load");
        try (OneMachine machine = new OneMachine(folder)) {
          machine.running(server.toAbsolutePath());
          machine.with("KORNSPUR_PARTITIONS", "4");
          machine.option("-Xmx2g").option("-XX:TieredStopAtLevel=4");
          Arrays.stream(System.getProperty("server.options", "").split(" "))
              .filter(option -> !option.isBlank())
              .forEach(machine::option);
          report.begin(server.getName(Math.max(0, server.getNameCount() - 2)) + ", " + copies);
          new SeasonLoad(copies, loads, folder, machine, report).run();
          report.write(REPORT);
        } finally {
          delete(folder);
        }
      }
    }
  }

  private void run() throws Exception {
    machine.start();
    machine.awaitReady();
    BrokerFloor.note(machine, report);
    int facts = 0;
    for (int load = 0; load < loads; load++) {
      facts += load(load);
    }
    SingleFacts.note(machine, report);
    lateResults(loads * copies);
    report.note("memory, resident", "%d MB", machine.residentMemoryKb() >> 10);
    WrittenRecords.note(machine, facts, report);
    report.note("disk a fact, broker", "%.0f bytes", bytesIn("broker") / (double) facts);
    report.note("disk a fact, stores", "%.0f bytes", bytesIn("streams") / (double) facts);
    starts();
  }

  private int load(int number) throws IOException, InterruptedException {
    Process sender = sender(number * copies);
    try (BufferedReader said = sender.inputReader()) {
      int facts = Integer.parseInt(said.readLine());
      Duration processorBefore = machine.processorTime();
      long began = System.nanoTime();
      try (OutputStream go = sender.getOutputStream()) {
        go.write('\n');
      }
      if (sender.waitFor() != 0) {
        throw new IllegalStateException("The sender failed");
      }
      double settledAfter = secondsSince(began) + secondsToSettle();
      double processor = seconds(machine.processorTime().minus(processorBefore));
      String which = "load " + (number + 1) + ", ";
      report.note(which + "facts", "%d", facts);
      report.note(which + "facts a second to the last standing", "%.0f", facts / settledAfter);
      report.note(which + "processor time a fact", "%.2f ms", 1000 * processor / facts);
      return facts;
    }
  }

  /** Until every descendant is judged by it. */
  private void lateResults(int allCopies) throws IOException, InterruptedException {
    double[] late = new double[Math.min(MOST_LATE_RESULTS, allCopies)];
    double[] traces = new double[late.length];
    for (int copy = 0; copy < late.length; copy++) {
      String lot = LOT_WITH_MOST_DESCENDANTS + "." + copy;
      long began = System.nanoTime();
      machine.site().answer("/api/v1/lots/" + lot + "/trace?direction=forward");
      traces[copy] = 1000 * secondsSince(began);
      began = System.nanoTime();
      machine.site().postLines("/api/v1/facts", identityDenied(lot));
      late[copy] = secondsSince(began) + secondsToSettle();
    }
    report.note("late result to all descendants, median", "%.1f s", median(late));
    report.note("their trace forward, median", "%.0f ms", median(traces));
  }

  private static double median(double[] values) {
    return Arrays.stream(values).sorted().skip(values.length / 2).findFirst().orElseThrow();
  }

  private static String identityDenied(String lot) {
    return InventedFacts.fact(
        "PostControlResult",
        "late-" + lot,
        """
        "lotId": "%s", "method": "PLOT", "plotOrTestId": "late", "plantsExamined": 1000, \
        "identityConfirmed": false, "offTypePlants": 0"""
            .formatted(lot));
  }

  /** In a process of its own, so that its time is not the server's. */
  private Process sender(int firstCopy) throws IOException {
    String classes =
        Path.of("..", "processors", "target", "test-classes").toAbsolutePath().toString();
    return new ProcessBuilder(
            Path.of(System.getProperty("java.home"), "bin", "java").toString(),
            "-cp",
            classes + File.pathSeparator + TestClassPath.absolute(),
            "org.kornspur.processors.benchmark.FactSender",
            machine.clientFile().toString(),
            Integer.toString(firstCopy),
            Integer.toString(copies))
        .redirectError(ProcessBuilder.Redirect.DISCARD)
        .start();
  }

  /** Without the time for which nothing came any more. */
  private double secondsToSettle() throws InterruptedException {
    Deadline deadline = Deadline.in(LONGEST, "all is judged");
    long began = System.nanoTime();
    long stillSince = began;
    try (Backlog backlog = machine.backlog()) {
      while (System.nanoTime() - stillSince < UNREADY_STILL.toNanos()) {
        if (deadline.passed()) {
          throw deadline.missed(backlog.records() + " records wait");
        }
        Thread.sleep(100);
        if (backlog.records() > 0) {
          stillSince = System.nanoTime();
        }
      }
    }
    return (stillSince - began) / 1e9;
  }

  private void starts() throws InterruptedException, IOException {
    machine.stop();
    machine.start();
    report.note("ready again after a clean stop", "%.1f s", seconds(machine.awaitReady()));
    pages("first asked after the start");
    pages("asked again");
    machine.kill();
    machine.start();
    report.note("ready again after kill -9", "%.1f s", seconds(machine.awaitReady()));
  }

  private void pages(String when) throws InterruptedException {
    for (String page : PAGES) {
      long began = System.nanoTime();
      Site.File answer = machine.site().file(page).join();
      if (answer.status() != 200) {
        throw new IllegalStateException(page + " answered with " + answer);
      }
      report.note("`" + page + "`, " + when, "%.0f ms", (System.nanoTime() - began) / 1e6);
    }
  }

  private long bytesIn(String part) throws IOException {
    try (Stream<Path> files = Files.walk(folder.resolve("data").resolve(part))) {
      return files
          .filter(Files::isRegularFile)
          .filter(file -> !file.toString().endsWith("index"))
          .collect(Collectors.summingLong(file -> file.toFile().length()));
    }
  }

  private static double secondsSince(long began) {
    return (System.nanoTime() - began) / 1e9;
  }

  private static double seconds(Duration time) {
    return time.toMillis() / 1000.0;
  }

  private static void delete(Path folder) throws IOException {
    try (Stream<Path> files = Files.walk(folder)) {
      files.sorted(java.util.Comparator.reverseOrder()).map(Path::toFile).forEach(File::delete);
    }
  }
}
