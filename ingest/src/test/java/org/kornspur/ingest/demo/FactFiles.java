package org.kornspur.ingest.demo;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.util.DefaultIndenter;
import com.fasterxml.jackson.core.util.DefaultPrettyPrinter;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.ObjectWriter;
import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.time.Instant;
import java.time.LocalDate;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.apache.avro.Schema;
import org.apache.avro.generic.IndexedRecord;
import org.apache.avro.specific.SpecificRecord;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVPrinter;
import org.kornspur.ingest.contract.FactType;

/** Facts as the text of a CSV, JSON or NDJSON file. */
final class FactFiles {
  private static final ObjectMapper JSON = new ObjectMapper();
  private static final ObjectWriter INDENTED = JSON.writer(printer());

  private FactFiles() {}

  /**
   * The facts, all of one type, a line each, with a column for every value that any of them has.
   */
  static String csv(List<? extends SpecificRecord> facts) {
    List<Map<String, String>> lines = facts.stream().map(FactText::columns).toList();
    List<String> columns =
        lines.get(0).keySet().stream()
            .filter(column -> lines.stream().anyMatch(line -> !line.get(column).isEmpty()))
            .toList();
    CSVFormat format =
        CSVFormat.RFC4180
            .builder()
            .setRecordSeparator('\n')
            .setHeader(columns.toArray(String[]::new))
            .get();
    StringWriter text = new StringWriter();
    try (CSVPrinter printer = new CSVPrinter(text, format)) {
      for (Map<String, String> line : lines) {
        printer.printRecord(columns.stream().map(line::get));
      }
    } catch (IOException e) {
      throw new UncheckedIOException("A string writer does not fail", e);
    }
    return text.toString();
  }

  /** The facts, of any type, as one indented array. */
  static String json(List<? extends SpecificRecord> facts) {
    return written(INDENTED, facts.stream().map(FactFiles::typed).toList()) + "\n";
  }

  /** The facts, of any type, an object a line. */
  static String ndjson(List<? extends SpecificRecord> facts) {
    return facts.stream()
        .map(fact -> written(JSON.writer(), typed(fact)) + "\n")
        .collect(Collectors.joining());
  }

  private static Map<String, Object> typed(SpecificRecord fact) {
    Map<String, Object> object = new LinkedHashMap<>();
    object.put("type", FactType.of(fact).contractName());
    object.putAll(object(fact));
    return object;
  }

  private static Map<String, Object> object(IndexedRecord branch) {
    Map<String, Object> object = new LinkedHashMap<>();
    for (Schema.Field field : branch.getSchema().getFields()) {
      Object value = branch.get(field.pos());
      if (value != null) {
        object.put(field.name(), plain(value));
      }
    }
    return object;
  }

  private static Object plain(Object value) {
    if (value instanceof IndexedRecord branch) {
      return object(branch);
    }
    if (value instanceof Collection<?> list) {
      return list.stream().map(FactFiles::plain).toList();
    }
    if (value instanceof Instant || value instanceof LocalDate || value instanceof Enum<?>) {
      return value.toString();
    }
    return value;
  }

  private static String written(ObjectWriter writer, Object value) {
    try {
      return writer.writeValueAsString(value);
    } catch (JsonProcessingException e) {
      throw new UncheckedIOException("Plain maps and lists can always be written", e);
    }
  }

  private static DefaultPrettyPrinter printer() {
    DefaultIndenter indenter = new DefaultIndenter("  ", "\n");
    return new DefaultPrettyPrinter().withObjectIndenter(indenter).withArrayIndenter(indenter);
  }
}
