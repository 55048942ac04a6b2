package org.kornspur.processors;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;

/**
 * Collects what tests hold against published values and writes it as a table to {@code
 * target/checks/<topic>.md} when the test run ends: check, published value, our value, source.
 */
public final class PublishedChecks {

  private static final Map<String, PublishedChecks> TOPICS = new ConcurrentHashMap<>();

  private final String topic;
  private final List<Row> rows = Collections.synchronizedList(new ArrayList<>());

  private record Row(String check, String published, String ours, String source) {}

  private PublishedChecks(String topic) {
    this.topic = topic;
    Runtime.getRuntime().addShutdownHook(new Thread(this::write, "checks-" + topic));
  }

  /** The table of this topic; one for the whole test run. */
  public static PublishedChecks of(String topic) {
    return TOPICS.computeIfAbsent(topic, PublishedChecks::new);
  }

  /** Puts both values in the table and fails where they are not the same. */
  public void same(String check, Object published, Object ours, String source) {
    shown(check, published, ours, source);
    assertThat(ours).as("%s, by %s", check, source).isEqualTo(published);
  }

  /** Puts both values in the table and fails where they lie further apart than {@code allowed}. */
  public void close(String check, double published, double ours, double allowed, String source) {
    shown(check, published, ours, source);
    assertThat(ours).as("%s, by %s", check, source).isCloseTo(published, within(allowed));
  }

  /** Puts both values in the table without judging them. */
  public void shown(String check, Object published, Object ours, String source) {
    rows.add(new Row(check, published.toString(), ours.toString(), source));
  }

  private void write() {
    StringBuilder table =
        new StringBuilder("| check | published value | our value | source |\n|---|---|---|---|\n");
    for (Row row : List.copyOf(rows)) {
      table.append(
          "| %s | %s | %s | %s |%n"
              .formatted(row.check, row.published, row.ours, row.source.replace("|", "\\|")));
    }
    try {
      Path folder = Files.createDirectories(Path.of("target", "checks"));
      Files.writeString(folder.resolve(topic + ".md"), table);
    } catch (IOException e) {
      throw new UncheckedIOException("The table of checks cannot be written", e);
    }
  }
}
