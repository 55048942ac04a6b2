package org.kornspur.api.packaged;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.apache.kafka.common.utils.AppInfoParser;

/** Figures of loads beside each other, a column each, as a table in Markdown. */
final class LoadReport {
  private final List<String> columns = new ArrayList<>();
  private final Map<String, Map<String, String>> lines = new LinkedHashMap<>();

  /** What is noted from now on is of this load. */
  void begin(String column) {
    columns.add(column);
    System.out.printf("%n%s%n", column);
  }

  void note(String figure, String format, Object... values) {
    String value = String.format(Locale.ROOT, format, values);
    System.out.printf("  %-52s %s%n", figure, value);
    lines
        .computeIfAbsent(figure, name -> new LinkedHashMap<>())
        .put(columns.get(columns.size() - 1), value);
  }

  void write(Path file) throws IOException {
    Files.createDirectories(file.getParent());
    Files.write(
        file,
        Stream.of(
                Stream.of("# Load of an invented enterprise", "", machine(), "", head(), rule()),
                lines.entrySet().stream().map(line -> line(line.getKey(), line.getValue())))
            .flatMap(part -> part)
            .toList());
  }

  private static String machine() {
    Runtime runtime = Runtime.getRuntime();
    return "%s, %d processors, %s, Java %s, Kafka %s"
        .formatted(
            LocalDate.now(),
            runtime.availableProcessors(),
            System.getProperty("os.name") + " " + System.getProperty("os.version"),
            System.getProperty("java.version"),
            AppInfoParser.getVersion());
  }

  private String head() {
    return "| | " + String.join(" | ", columns) + " |";
  }

  private String rule() {
    return "|---|" + "---:|".repeat(columns.size());
  }

  private String line(String figure, Map<String, String> byColumn) {
    return "| %s | %s |"
        .formatted(
            figure,
            columns.stream()
                .map(column -> byColumn.getOrDefault(column, ""))
                .collect(Collectors.joining(" | ")));
  }
}
