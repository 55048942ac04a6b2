package org.kornspur.api.packaged;

import java.io.File;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.concurrent.ExecutionException;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.apache.kafka.clients.admin.Admin;
import org.apache.kafka.clients.consumer.KafkaConsumer;
import org.apache.kafka.common.TopicPartition;
import org.apache.kafka.common.serialization.ByteArrayDeserializer;
import org.kornspur.api.rest.InventedFacts;

/**
 * Sends copies of the invented enterprise to the packaged server, all at once, and measures until
 * every standing is settled: facts a second, processor time, and what was written for each fact;
 * then how long one fact takes to its standing while nothing else is to be done.
 *
 * <p>From the folder {@code api}, with the packaged server in {@code target} or named by its jar:
 *
 * <pre>{@code
 * mvn -q -f .. package -DskipTests && mvn -q dependency:build-classpath -Dmdep.outputFile=target/benchmark.cp
 * java -cp "target/test-classes:target/classes:$(cat target/benchmark.cp)" \
 *     org.kornspur.api.packaged.SeasonLoad 10 [quarkus-run.jar ...]
 * }</pre>
 *
 * <p>The number is how many copies are sent, of some 3,000 facts each. Of several servers one after
 * the other is measured, so that they can be compared in one run. {@code -Dserver.options} gives
 * them further options of Java, such as those of a profiler.
 */
public final class SeasonLoad {
  private static final Duration LONGEST = Duration.ofMinutes(60);
  private static final Duration UNREADY_STILL = Duration.ofSeconds(1);
  private static final int SINGLE_FACTS = 60;
  private static final String STANDINGS = "kornspur.standings";

  private final int copies;
  private final OneMachine machine;
  private final Path folder;

  private SeasonLoad(int copies, Path folder, OneMachine machine) {
    this.copies = copies;
    this.folder = folder;
    this.machine = machine;
  }

  public static void main(String[] arguments) throws Exception {
    int copies = Integer.parseInt(arguments[0]);
    List<Path> servers =
        arguments.length > 1
            ? Arrays.stream(arguments).skip(1).map(Path::of).toList()
            : List.of(PackagedPrograms.application());
    for (Path server : servers) {
      Path folder = Files.createTempDirectory("season-load");
      try (OneMachine machine = new OneMachine(folder)) {
        machine.running(server.toAbsolutePath());
        machine.with("KORNSPUR_PARTITIONS", "4");
        machine.option("-Xmx2g").option("-XX:TieredStopAtLevel=4");
        Arrays.stream(System.getProperty("server.options", "").split(" "))
            .filter(option -> !option.isBlank())
            .forEach(machine::option);
        System.out.printf("%n%s%n", server);
        new SeasonLoad(copies, folder, machine).run();
      } finally {
        delete(folder);
      }
    }
  }

  private void run() throws Exception {
    machine.start();
    machine.awaitReady();
    Duration processorBefore = machine.processorTime();
    long began = System.nanoTime();
    int facts = send();
    double sentAfter = secondsSince(began);
    awaitSettled();
    double settledAfter = secondsSince(began);
    double processor = machine.processorTime().minus(processorBefore).toMillis() / 1000.0;
    line("%d facts sent in %.1f s, settled after %.1f s", facts, sentAfter, settledAfter);
    line(
        "%.0f facts a second; %.0f s of processor time, %.2f ms a fact",
        facts / settledAfter, processor, 1000 * processor / facts);
    written(facts);
    line(
        "disk: %.0f bytes a fact, broker; %.0f, stores",
        bytesIn("broker") / (double) facts, bytesIn("streams") / (double) facts);
    singleFacts();
  }

  /** In a process of its own, so that its time is not the server's. */
  private int send() throws IOException, InterruptedException {
    String classes =
        Path.of("..", "processors", "target", "test-classes").toAbsolutePath().toString();
    Process sender =
        new ProcessBuilder(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-cp",
                classes + File.pathSeparator + TestClassPath.absolute(),
                "org.kornspur.processors.benchmark.FactSender",
                machine.clientFile().toString(),
                "0",
                Integer.toString(copies))
            .redirectError(ProcessBuilder.Redirect.DISCARD)
            .start();
    String said = new String(sender.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    if (sender.waitFor() != 0) {
      throw new IllegalStateException("The sender failed: " + said);
    }
    return Integer.parseInt(said.strip());
  }

  private void awaitSettled() throws InterruptedException {
    Deadline deadline = Deadline.in(LONGEST, "all is judged");
    try (Backlog backlog = machine.backlog()) {
      long stillSince = System.nanoTime();
      while (System.nanoTime() - stillSince < UNREADY_STILL.toNanos()) {
        if (deadline.passed()) {
          throw deadline.missed(backlog.records() + " records wait");
        }
        Thread.sleep(100);
        if (backlog.records() != 0) {
          stillSince = System.nanoTime();
        }
      }
    }
  }

  /** Records and their bytes unpacked, of each topic that processors write to. */
  private void written(int facts) throws ExecutionException, InterruptedException {
    SortedMap<String, long[]> byTopic = new TreeMap<>();
    try (Admin admin = Admin.create(machine.programSettings());
        KafkaConsumer<byte[], byte[]> reader = reader()) {
      List<TopicPartition> partitions =
          admin
              .describeTopics(
                  admin.listTopics().names().get().stream()
                      .filter(topic -> topic.startsWith("kornspur"))
                      .toList())
              .allTopicNames()
              .get()
              .values()
              .stream()
              .flatMap(
                  topic ->
                      topic.partitions().stream()
                          .map(part -> new TopicPartition(topic.name(), part.partition())))
              .toList();
      reader.assign(partitions);
      reader.seekToBeginning(partitions);
      Map<TopicPartition, Long> ends = reader.endOffsets(partitions);
      while (ends.entrySet().stream().anyMatch(e -> reader.position(e.getKey()) < e.getValue())) {
        reader
            .poll(Duration.ofSeconds(1))
            .forEach(
                record -> {
                  long[] sum = byTopic.computeIfAbsent(record.topic(), topic -> new long[2]);
                  sum[0]++;
                  sum[1] +=
                      Math.max(0, record.serializedKeySize())
                          + Math.max(0, record.serializedValueSize());
                });
      }
    }
    long records = 0;
    long bytes = 0;
    for (Map.Entry<String, long[]> topic : byTopic.entrySet()) {
      line(
          "  %-46s %6.2f records, %6.0f bytes a fact",
          topic.getKey(),
          topic.getValue()[0] / (double) facts,
          topic.getValue()[1] / (double) facts);
      if (!topic.getKey().equals("kornspur.facts")) {
        records += topic.getValue()[0];
        bytes += topic.getValue()[1];
      }
    }
    line("judgings: %.2f a fact", byTopic.get(STANDINGS)[0] / (double) facts);
    line(
        "written besides the facts: %.1f records, %.0f bytes a fact",
        records / (double) facts, bytes / (double) facts);
  }

  /** From the request that brings a fact to the standing that a reader of the topic gets. */
  private void singleFacts() throws Exception {
    double[] millis = new double[SINGLE_FACTS];
    try (KafkaConsumer<byte[], byte[]> reader = reader()) {
      List<TopicPartition> partitions =
          reader.partitionsFor(STANDINGS).stream()
              .map(part -> new TopicPartition(STANDINGS, part.partition()))
              .toList();
      reader.assign(partitions);
      reader.seekToEnd(partitions);
      partitions.forEach(
          reader::position); // looked up now; else a first standing may lie before it
      for (int fact = 0; fact < SINGLE_FACTS; fact++) {
        String lot = "SINGLE-" + fact;
        long began = System.nanoTime();
        Site.Answer answer =
            machine
                .site()
                .postLines("/api/v1/facts", InventedFacts.lot("single-" + fact, lot, "SX", 500));
        if (answer.status() != 200) {
          throw new IllegalStateException("Answered with " + answer);
        }
        awaitStanding(reader, "lot:" + lot);
        millis[fact] = secondsSince(began) * 1000;
        Thread.sleep(37);
      }
    }
    Arrays.sort(millis);
    line(
        "one fact on a quiet system: %.0f ms in the median, %.0f ms at most of %d",
        millis[SINGLE_FACTS / 2], millis[SINGLE_FACTS - 1], SINGLE_FACTS);
  }

  private static void awaitStanding(KafkaConsumer<byte[], byte[]> reader, String subject) {
    boolean[] found = {false};
    Deadline deadline = Deadline.in(Duration.ofSeconds(30), "the standing of " + subject);
    while (!found[0]) {
      if (deadline.passed()) {
        throw deadline.missed("no record");
      }
      reader
          .poll(Duration.ofMillis(50))
          .forEach(
              record ->
                  found[0] |= subject.equals(new String(record.key(), StandardCharsets.UTF_8)));
    }
  }

  private KafkaConsumer<byte[], byte[]> reader() {
    Map<String, Object> settings = new HashMap<>(machine.programSettings());
    settings.put("isolation.level", "read_committed");
    settings.put("enable.auto.commit", false);
    settings.put("fetch.min.bytes", 1);
    return new KafkaConsumer<>(settings, new ByteArrayDeserializer(), new ByteArrayDeserializer());
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

  private static void line(String format, Object... values) {
    System.out.println(String.format(Locale.ROOT, format, values));
  }

  private static void delete(Path folder) throws IOException {
    try (Stream<Path> files = Files.walk(folder)) {
      files.sorted(java.util.Comparator.reverseOrder()).map(Path::toFile).forEach(File::delete);
    }
  }
}
