package org.kornspur.ingest.file;

import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.Consumer;
import java.util.stream.Collectors;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.intake.Problem;
import org.kornspur.ingest.intake.Problems;
import org.kornspur.ingest.json.FactJson;
import org.kornspur.ingest.json.FactParser;
import org.kornspur.ingest.json.ReadResult;
import org.kornspur.ingest.problem.CellProblem;
import org.kornspur.ingest.problem.Given;
import org.kornspur.ingest.sheet.SheetCell;
import org.kornspur.ingest.sheet.SheetRow;
import org.kornspur.ingest.sheet.SheetRows;
import org.kornspur.ingest.sheet.UnreadableTable;

/**
 * A table that a person made: a workbook, or a text, whose rows are facts of one kind a sheet. It
 * is read twice, row by row: first for what its cells tell of its form, then for its facts. Every
 * row becomes the JSON of its fact and goes the way of all JSON.
 */
public final class FactTable {
  private static final String RECORDED_BY = "header.recordedBy";
  private static final String RECORDED_AT = "header.recordedAt";
  private static final String FACT_ID = "header.factId";

  private final TableSource source;
  private final TableReadingOptions rules;
  private final DecimalMark.Evidence numbers;
  private final DayOrder.Evidence days;
  private final TableCells cells;
  private final List<DetectedTable.Sheet> sheets = new ArrayList<>();
  private final List<TableSource.Part> parts = new ArrayList<>();
  private final List<List<FieldPathColumn>> columns = new ArrayList<>();

  private FactTable(TableSource source, TableReadingOptions rules) {
    this.source = source;
    this.rules = rules;
    this.numbers = new DecimalMark.Evidence(rules.decimalMark());
    this.days = new DayOrder.Evidence(rules.dayOrder(), rules.zone());
    this.cells = new TableCells(numbers, days, rules.languages());
  }

  /**
   * Reads a table once and tells its form.
   *
   * @param fileName as the person knows it; it may say what the rows are
   * @throws UnreadableTable if no row can be read
   */
  public static FactTable open(Path file, String fileName, TableReadingOptions rules)
      throws IOException, UnreadableTable {
    FactTable table = new FactTable(new TableSource(file, fileName, rules), rules);
    for (TableSource.Part part : table.source.parts()) {
      table.look(part);
    }
    if (table.sheets.isEmpty()) {
      throw table.source.noKind();
    }
    return table;
  }

  /** What was told of the table from what is in it. */
  public DetectedTable form() {
    return new DetectedTable(
        source.encoding(),
        source.delimiter(),
        numbers.mark(),
        days.order(),
        rules.zone(),
        List.copyOf(sheets),
        source.leftOut());
  }

  /** Reads all rows, in order. */
  public void read(Consumer<TableRow> into) throws IOException, UnreadableTable {
    RowIds ids = new RowIds(rules.owner());
    for (int sheet = 0; sheet < parts.size(); sheet++) {
      try (SheetRows rows = source.rows(parts.get(sheet))) {
        rows.next();
        for (Optional<SheetRow> row = rows.next(); row.isPresent(); row = rows.next()) {
          if (!source.isExample(row.get())) {
            into.accept(read(sheet, row.get(), ids));
          }
        }
      }
    }
  }

  private void look(TableSource.Part part) throws IOException, UnreadableTable {
    try (SheetRows rows = source.rows(part)) {
      SheetRow header = rows.next().orElseThrow(source::noHeader);
      HeaderMatcher names = HeaderMatcher.of(part.kind(), rules.languages());
      List<FieldPathColumn> resolved = new ArrayList<>();
      List<DetectedTable.Column> named = new ArrayList<>();
      Set<String> paths = new HashSet<>();
      for (int position = 0; position < header.cells().size(); position++) {
        String name = header.cell(position).shown();
        if (!name.isEmpty()) {
          Optional<String> said =
              source.isNeverRead(name)
                  ? Optional.of("")
                  : Optional.ofNullable(rules.columns().get(name));
          Optional<FieldPathColumn> column = column(part.kind(), names, name, said, position);
          // of two columns of one field neither goes before the other
          Optional<FieldPathColumn> only = column.filter(one -> paths.add(one.path()));
          only.ifPresent(resolved::add);
          named.add(
              new DetectedTable.Column(
                  position,
                  name,
                  only.map(FieldPathColumn::path),
                  said.filter(String::isEmpty).isPresent(),
                  false));
        }
      }
      if (resolved.isEmpty()) {
        throw source.noHeader();
      }
      Set<Integer> used = new HashSet<>();
      for (Optional<SheetRow> row = rows.next(); row.isPresent(); row = rows.next()) {
        see(row.get(), resolved, used);
      }
      parts.add(part);
      columns.add(resolved);
      sheets.add(
          new DetectedTable.Sheet(
              part.name(),
              part.kind(),
              header.cells().stream().map(SheetCell::shown).toList(),
              named.stream()
                  .map(
                      one ->
                          new DetectedTable.Column(
                              one.position(),
                              one.name(),
                              one.path(),
                              one.leftOut(),
                              used.contains(one.position())))
                  .toList()));
    }
  }

  private void see(SheetRow row, List<FieldPathColumn> resolved, Set<Integer> used) {
    if (source.isExample(row)) {
      return;
    }
    resolved.forEach(column -> cells.see(column.schema(), row.cell(column.position())));
    for (int position = 0; position < row.cells().size(); position++) {
      if (!(row.cell(position) instanceof SheetCell.Empty)) {
        used.add(position);
      }
    }
  }

  private static Optional<FieldPathColumn> column(
      FactType kind, HeaderMatcher names, String name, Optional<String> said, int position) {
    Optional<String> path = said.isPresent() ? said : names.path(name);
    return path.filter(one -> !one.isEmpty())
        .flatMap(one -> FieldPathColumn.resolve(kind, one, position, new Problems()));
  }

  private TableRow read(int sheet, SheetRow row, RowIds ids) {
    FactType kind = sheets.get(sheet).kind();
    Problems problems = new Problems();
    ObjectNode json = JsonNodeFactory.instance.objectNode();
    json.put(FactJson.TYPE_FIELD, kind.contractName());
    Set<String> given = new HashSet<>();
    for (FieldPathColumn column : columns.get(sheet)) {
      SheetCell cell = row.cell(column.position());
      if (!(cell instanceof SheetCell.Empty)) {
        given.add(column.path());
        cells
            .read(column.schema(), cell, column.path(), problems)
            .ifPresent(text -> column.put(text, json, problems));
      }
    }
    complete(json, given);
    ReadResult result = FactParser.accept(json);
    if (result instanceof ReadResult.Refused refused) {
      addOthers(refused, problems);
    }
    if (problems.none() && result instanceof ReadResult.Fact fact) {
      identify(fact.fact(), given, row.number(), ids, problems);
    }
    return new TableRow(
        sheet, row, problems.none() ? result : new ReadResult.Refused(problems.list()), given);
  }

  /** What a row need not say: who brings the table records it now. */
  private void complete(ObjectNode json, Set<String> given) {
    ObjectNode header = json.withObjectProperty("header");
    if (!given.contains(FACT_ID)) {
      header.put("factId", RowIds.NOT_YET);
    }
    if (!given.contains(RECORDED_BY)) {
      header.put("recordedBy", rules.recordedBy());
    }
    if (!given.contains(RECORDED_AT)) {
      header.put("recordedAt", rules.recordedAt().toString());
    }
    if (!given.contains("header.sourceDocument")) {
      header.put("sourceDocument", source.document());
    }
  }

  private static void identify(
      SpecificRecord fact, Set<String> given, int row, RowIds ids, Problems problems) {
    String content = RowIds.contentOf(fact, given);
    if (!given.contains(FACT_ID)) {
      FactType.headerOf(fact).put("factId", ids.idOf(content));
    }
    ids.take(FactType.idOf(fact), row, content)
        .ifPresent(
            above ->
                problems.add(
                    above.isSame() ? "" : FACT_ID,
                    new Given.Text(FactType.idOf(fact)),
                    above.isSame()
                        ? new CellProblem.RowTwice(above.row())
                        : new CellProblem.IdTwice(above.row())));
  }

  /** Adds what the intake says of fields that the table has not spoken of yet. */
  private static void addOthers(ReadResult.Refused refused, Problems problems) {
    Set<String> spokenOf = problems.list().stream().map(Problem::field).collect(Collectors.toSet());
    refused.problems().stream()
        .filter(problem -> spokenOf.stream().noneMatch(field -> isWithin(field, problem.field())))
        .forEach(problems::add);
  }

  /** Whether a field is another, holds it, or lies in it. */
  private static boolean isWithin(String one, String other) {
    return !one.isEmpty()
        && !other.isEmpty()
        && (one.equals(other)
            || one.startsWith(other + ".")
            || one.startsWith(other + "[")
            || other.startsWith(one + "."));
  }
}
