package org.kornspur.ingest.file;

import java.math.BigDecimal;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Predicate;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.apache.avro.Schema;
import org.apache.avro.generic.IndexedRecord;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.sheet.SheetCell;

/**
 * The columns of a table of one kind of fact in the words of a language, and the rows that facts
 * make in it: what {@link FactTable} reads back to the same facts.
 */
public final class FactTableWriter {
  private static final Pattern STEP = Pattern.compile("(\\w+)(?:\\[(\\d+)])?");

  private final TableWords words;
  private final List<Column> columns;

  /**
   * A column.
   *
   * @param name as the header has it
   * @param path of the field, as in {@code inputs[0].massKg}
   * @param record that has the field
   * @param field of that record; the list, of an element that is no record
   * @param schema of the value
   * @param required whether a row must have it
   */
  public record Column(
      String name, String path, Schema record, String field, Schema schema, boolean required) {}

  private FactTableWriter(TableWords words, List<Column> columns) {
    this.words = words;
    this.columns = List.copyOf(columns);
  }

  /**
   * The columns of a kind of fact.
   *
   * @param elements how many elements of each list have columns, by the name of the list
   * @param wanted which paths are wanted
   */
  public static FactTableWriter of(
      FactType type, TableWords words, Map<String, Integer> elements, Predicate<String> wanted) {
    HeaderMatcher names = HeaderMatcher.of(type, List.of(words));
    List<HeaderMatcher.Leaf> leaves =
        HeaderMatcher.leaves(type).stream()
            .filter(leaf -> leaf.schema().getType() != Schema.Type.ARRAY)
            .toList();
    List<Column> columns = new ArrayList<>();
    List<String> done = new ArrayList<>();
    for (HeaderMatcher.Leaf leaf : leaves) {
      String list = leaf.isNumbered() ? leaf.path().substring(0, leaf.path().indexOf('[')) : "";
      if (list.isEmpty()) {
        add(columns, names, words, leaf, 0);
      } else if (!done.contains(list)) {
        done.add(list);
        // an element's fields stand beside each other
        for (int element = 0; element < elements.getOrDefault(list, 1); element++) {
          for (HeaderMatcher.Leaf of : leaves) {
            if (of.path().startsWith(list + "[")) {
              add(columns, names, words, of, element);
            }
          }
        }
      }
    }
    return new FactTableWriter(
        words, columns.stream().filter(column -> wanted.test(column.path())).toList());
  }

  private static void add(
      List<Column> into,
      HeaderMatcher names,
      TableWords words,
      HeaderMatcher.Leaf leaf,
      int element) {
    String path = leaf.path().replace("#", String.valueOf(element));
    String name = leaf.name(words).replace("#", String.valueOf(element + 1));
    boolean isItsOwn = names.path(name).filter(path::equals).isPresent();
    HeaderMatcher.Leaf.Step last = leaf.steps().get(leaf.steps().size() - 1);
    into.add(
        new Column(
            isItsOwn ? name : path,
            path,
            last.record(),
            last.field(),
            leaf.schema(),
            leaf.required() && element == 0));
  }

  public List<Column> columns() {
    return columns;
  }

  /** The row of a fact, with times of this zone. */
  public List<SheetCell> row(SpecificRecord fact, ZoneId zone) {
    return columns.stream().map(column -> cell(fact, column, zone)).toList();
  }

  private SheetCell cell(SpecificRecord fact, Column column, ZoneId zone) {
    Object value = fact;
    for (String step : column.path().split("\\.", -1)) {
      value = value == null ? null : at((IndexedRecord) value, step);
    }
    if (value == null) {
      return new SheetCell.Empty();
    } else if (value instanceof Instant time) {
      return moment(time, zone);
    } else if (value instanceof LocalDate day) {
      return new SheetCell.Moment(day.atStartOfDay());
    } else if (value instanceof Integer number) {
      return new SheetCell.Number(BigDecimal.valueOf(number));
    } else if (value instanceof Double number) {
      return new SheetCell.Number(plain(number));
    } else if (value instanceof Boolean flag) {
      return SheetCell.of(words.choice("Flag", flag.toString()));
    } else if (column.schema().getType() == Schema.Type.ENUM) {
      return SheetCell.of(words.choice(column.schema().getName(), value.toString()));
    }
    return SheetCell.of(value.toString());
  }

  private static BigDecimal plain(double number) {
    BigDecimal plain = BigDecimal.valueOf(number).stripTrailingZeros();
    return plain.scale() < 0 ? plain.setScale(0) : plain;
  }

  /** A midnight would be read as a day alone, and what a change of clocks had twice as neither. */
  private static SheetCell moment(Instant time, ZoneId zone) {
    LocalDateTime local = LocalDateTime.ofInstant(time, zone);
    boolean isClear =
        zone.getRules().getValidOffsets(local).size() == 1
            && !local.toLocalTime().equals(LocalTime.MIDNIGHT);
    return isClear ? new SheetCell.Moment(local) : SheetCell.of(time.toString());
  }

  private static Object at(IndexedRecord record, String step) {
    Matcher parts = STEP.matcher(step);
    if (!parts.matches()) {
      throw new IllegalStateException("No step of a path: " + step);
    }
    Object value = record.get(record.getSchema().getField(parts.group(1)).pos());
    return Optional.ofNullable(parts.group(2))
        .<Object>map(index -> element((List<?>) value, Integer.parseInt(index)))
        .orElse(parts.group(2) == null ? value : null);
  }

  private static Object element(List<?> list, int index) {
    return list != null && index < list.size() ? list.get(index) : null;
  }
}
