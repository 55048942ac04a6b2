package org.kornspur.api.export.spreadsheet;

import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.apache.avro.Schema;
import org.apache.avro.generic.IndexedRecord;
import org.kornspur.contract.FactHeader;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.SubjectsNamed;
import org.kornspur.processors.dossier.Entry;

/**
 * A table for a spreadsheet: a header and rows of typed cells.
 *
 * <p>Of facts it has one row each: what all facts share first, then each field of the types that
 * occur, with its unit in the header. A field that a type has not is empty in its rows; an element
 * of a list has a column of its own, as {@code sown[1].massKg (kg)}.
 *
 * @param header names of the columns
 * @param rows as many cells each as there are columns
 */
public record SpreadsheetTable(List<String> header, List<List<Cell>> rows) {

  private static final List<String> SHARED =
      List.of(
          "happenedAt (UTC)",
          "recordedAt (UTC)",
          "type",
          "factId",
          "counts",
          "supersededBy",
          "supersededBecause",
          "recordedBy",
          "sourceDocument",
          "names");

  /** What a cell holds. */
  public sealed interface Cell {

    record Empty() implements Cell {}

    record Text(String text) implements Cell {}

    record Number(double number) implements Cell {}

    record Time(Instant time) implements Cell {}

    record Day(LocalDate day) implements Cell {}

    record Flag(boolean flag) implements Cell {}
  }

  /** The table of these facts, by the time when they happened. */
  public static SpreadsheetTable of(Collection<Entry> entries) {
    List<Entry> inOrder = entries.stream().sorted(Entry.BY_TIME_THEN_ID).toList();
    List<Map<String, Cell>> fields = inOrder.stream().map(SpreadsheetTable::fields).toList();
    List<String> columns =
        inOrder.stream()
            .collect(Collectors.groupingBy(entry -> FactType.of(entry.fact())))
            .entrySet()
            .stream()
            .sorted(Map.Entry.comparingByKey(Comparator.naturalOrder()))
            .flatMap(ofType -> ofType.getValue().stream())
            .flatMap(entry -> fields(entry).keySet().stream())
            .distinct()
            .toList();
    List<String> header = new ArrayList<>(SHARED);
    header.addAll(columns);
    List<List<Cell>> rows = new ArrayList<>();
    for (int at = 0; at < inOrder.size(); at++) {
      List<Cell> row = new ArrayList<>(shared(inOrder.get(at)));
      Map<String, Cell> own = fields.get(at);
      columns.forEach(column -> row.add(own.getOrDefault(column, new Cell.Empty())));
      rows.add(List.copyOf(row));
    }
    return new SpreadsheetTable(header, rows);
  }

  private static List<Cell> shared(Entry entry) {
    FactHeader header = entry.header();
    return List.of(
        new Cell.Time(header.getHappenedAt()),
        new Cell.Time(header.getRecordedAt()),
        new Cell.Text(FactType.of(entry.fact()).contractName()),
        new Cell.Text(header.getFactId()),
        new Cell.Flag(entry.counts()),
        entry.superseded().<Cell>map(by -> new Cell.Text(by.byFactId())).orElse(new Cell.Empty()),
        entry.superseded().<Cell>map(by -> new Cell.Text(by.reason())).orElse(new Cell.Empty()),
        new Cell.Text(header.getRecordedBy()),
        new Cell.Text(header.getSourceDocument()),
        new Cell.Text(
            SubjectsNamed.of(entry.fact()).stream()
                .map(Object::toString)
                .collect(Collectors.joining(" "))));
  }

  private static Map<String, Cell> fields(Entry entry) {
    Map<String, Cell> cells = new LinkedHashMap<>();
    for (Schema.Field field : entry.fact().getSchema().getFields()) {
      if (!field.name().equals("header")) {
        add(field.name(), field.schema(), entry.fact().get(field.pos()), cells);
      }
    }
    return cells;
  }

  private static void add(String path, Schema schema, Object value, Map<String, Cell> into) {
    if (value == null) {
      return;
    }
    if (schema.getType() == Schema.Type.UNION) {
      schema.getTypes().stream()
          .filter(type -> type.getType() != Schema.Type.NULL)
          .forEach(type -> add(path, type, value, into));
    } else if (value instanceof IndexedRecord branch) {
      for (Schema.Field field : branch.getSchema().getFields()) {
        add(path + "." + field.name(), field.schema(), branch.get(field.pos()), into);
      }
    } else if (value instanceof Collection<?> elements) {
      int number = 1;
      for (Object element : elements) {
        add(path + "[" + number + "]", schema.getElementType(), element, into);
        number++;
      }
    } else {
      String unit = schema.getProp("unit");
      into.put(unit == null ? path : path + " (" + unit + ")", cell(value));
    }
  }

  private static Cell cell(Object value) {
    if (value instanceof Number number) {
      return new Cell.Number(number.doubleValue());
    }
    if (value instanceof Boolean flag) {
      return new Cell.Flag(flag);
    }
    if (value instanceof Instant time) {
      return new Cell.Time(time);
    }
    return value instanceof LocalDate day ? new Cell.Day(day) : new Cell.Text(value.toString());
  }
}
