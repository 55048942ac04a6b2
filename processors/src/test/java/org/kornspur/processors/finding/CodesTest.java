package org.kornspur.processors.finding;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.lang.reflect.RecordComponent;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.kornspur.ingest.statement.Coded;
import org.kornspur.ingest.statement.Statement;
import org.kornspur.processors.statistics.NoTable;

/**
 * Codes and names of arguments are stored, sealed and read by the interface's clients. A line of
 * the file may be added, and one taken away for what is said no more; none may be changed.
 */
class CodesTest {

  @Test
  void noStoredCodeChanges() throws IOException {
    assertThat(kinds().map(CodesTest::line).sorted().toList())
        .isEqualTo(Stream.of(written().split("\n")).filter(line -> !line.startsWith("#")).toList());
  }

  @Test
  void noTwoKindsHaveOneCode() {
    assertThat(kinds().map(Coded::codeOf).toList()).doesNotHaveDuplicates();
  }

  private static Stream<Class<? extends Statement>> kinds() {
    return Stream.of(Finding.class, NoTable.class).flatMap(CodesTest::kinds);
  }

  private static Stream<Class<? extends Statement>> kinds(Class<?> type) {
    return type.isRecord()
        ? Stream.of(type.asSubclass(Statement.class))
        : Arrays.stream(type.getPermittedSubclasses()).flatMap(CodesTest::kinds);
  }

  private static String line(Class<? extends Statement> kind) {
    List<RecordComponent> components = List.of(kind.getRecordComponents());
    return components.stream()
        .map(component -> component.getName() + ": " + type(component))
        .collect(Collectors.joining(", ", Coded.codeOf(kind) + "(", ")"));
  }

  private static String type(RecordComponent component) {
    return component.getGenericType().getTypeName().replaceAll("[\\w.]+[.$]", "");
  }

  private static String written() throws IOException {
    try (InputStream file = CodesTest.class.getResourceAsStream("codes.txt")) {
      return new String(file.readAllBytes(), StandardCharsets.UTF_8);
    }
  }
}
