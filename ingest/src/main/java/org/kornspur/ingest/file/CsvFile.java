package org.kornspur.ingest.file;

import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Consumer;
import java.util.stream.Collectors;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.intake.Problem;
import org.kornspur.ingest.intake.Problems;
import org.kornspur.ingest.json.FactJson;
import org.kornspur.ingest.json.FactParser;
import org.kornspur.ingest.json.ReadResult;
import org.kornspur.ingest.problem.FileProblem;
import org.kornspur.ingest.problem.Given;
import org.kornspur.ingest.problem.TableProblem;

/**
 * A table of facts: the first line names the columns, each further line is a fact. Every row
 * becomes the JSON of its fact and goes the way of all JSON.
 *
 * <p>A row is one line. A quoted cell may hold commas, not line ends: no text of a fact may hold
 * one, so a quotation mark left open costs its own line and no other.
 */
final class CsvFile {

  private final String fileName;
  private final Consumer<FileInput> into;
  private final Map<FactType, List<FieldPathColumn>> columnsByType = new EnumMap<>(FactType.class);

  private List<String> header = List.of();
  private int typeColumn = -1;
  private CSVFormat format = CSVFormat.RFC4180;

  CsvFile(String fileName, Consumer<FileInput> into) {
    this.fileName = fileName;
    this.into = into;
  }

  void read(InputStream source) throws IOException {
    LineReader lines = new LineReader(source);
    Optional<Line> first = lines.next();
    if (first.isEmpty()) {
      into.accept(
          FileInput.refused(1, new byte[0], new Given.EmptyFile(), new FileProblem.EmptyTable()));
      return;
    }
    if (!readHeader(first.get())) {
      return;
    }
    for (Optional<Line> line = lines.next(); line.isPresent(); line = lines.next()) {
      readRow(line.get());
    }
  }

  private boolean readHeader(Line line) {
    Optional<String> text = readable(line);
    if (text.isEmpty()) {
      return false;
    }
    format = CSVFormat.RFC4180.builder().setDelimiter(delimiterOf(text.get())).get();
    Problems problems = new Problems();
    header = cells(text.get(), problems);
    typeColumn = header.indexOf(FactJson.TYPE_FIELD);
    Set<String> seen = new HashSet<>();
    header.stream()
        .filter(name -> !name.isEmpty() && !seen.add(name))
        .forEach(name -> problems.add(name, name, new TableProblem.ColumnTwice()));
    if (problems.none() && typeColumn < 0) {
      typeFromName(problems).ifPresent(type -> columnsOf(type, problems));
    }
    if (!problems.none()) {
      problems.add("", new Given.UnusableHeader(), new TableProblem.UnusableHeader());
      into.accept(refused(line, problems));
    }
    return problems.none();
  }

  private Optional<FactType> typeFromName(Problems problems) {
    String word = fileName.split("[^A-Za-z]", 2)[0];
    Optional<FactType> type = FactType.named(word);
    if (type.isEmpty()) {
      problems.add(FactJson.TYPE_FIELD, fileName, new TableProblem.NoTypeInName());
    }
    return type;
  }

  private void readRow(Line line) {
    Optional<String> text = readable(line);
    if (text.isEmpty() || text.get().isBlank()) {
      return;
    }
    Problems problems = new Problems();
    List<String> cells = cells(text.get(), problems);
    if (problems.none() && cells.stream().allMatch(String::isEmpty)) {
      return;
    }
    if (problems.none() && cells.size() != header.size()) {
      problems.add(
          "", new Given.Cells(cells.size()), new TableProblem.OtherCellCount(header.size()));
    }
    Optional<FactType> type = problems.none() ? typeOf(cells, problems) : Optional.empty();
    into.accept(type.isPresent() ? fact(line, type.get(), cells) : refused(line, problems));
  }

  private Optional<FactType> typeOf(List<String> cells, Problems problems) {
    if (typeColumn < 0) {
      return typeFromName(problems);
    }
    Optional<FactType> type = FactType.named(cells.get(typeColumn));
    if (type.isEmpty()) {
      problems.add(FactJson.TYPE_FIELD, cells.get(typeColumn), new TableProblem.UnknownType());
    }
    return type;
  }

  private FileInput fact(Line line, FactType type, List<String> cells) {
    ObjectNode json = JsonNodeFactory.instance.objectNode();
    json.put(FactJson.TYPE_FIELD, type.contractName());
    Problems problems = new Problems();
    for (FieldPathColumn column : columnsOf(type, new Problems())) {
      column.put(cells.get(column.position()), json, problems);
    }
    refuseCellsOfForeignColumns(type, cells, problems);
    ReadResult read = FactParser.accept(json);
    if (problems.none()) {
      return new FileInput(line.number(), line.bytes(), read);
    }
    if (read instanceof ReadResult.Refused refused) {
      addOthers(refused, problems);
    }
    return refused(line, problems);
  }

  /** In a file of several types a column may be foreign to a row; its cell is then empty. */
  private void refuseCellsOfForeignColumns(FactType type, List<String> cells, Problems problems) {
    Set<Integer> known =
        columnsOf(type, new Problems()).stream()
            .map(FieldPathColumn::position)
            .collect(Collectors.toSet());
    for (int position = 0; position < header.size(); position++) {
      if (position != typeColumn && !known.contains(position) && !cells.get(position).isEmpty()) {
        FieldPathColumn.resolve(type, header.get(position), position, problems);
      }
    }
  }

  /** Adds what the intake says of fields that the table has not spoken of yet. */
  private static void addOthers(ReadResult.Refused refused, Problems problems) {
    Set<String> spokenOf = problems.list().stream().map(Problem::field).collect(Collectors.toSet());
    refused.problems().stream()
        .filter(problem -> !spokenOf.contains(problem.field()))
        .forEach(problems::add);
  }

  private List<FieldPathColumn> columnsOf(FactType type, Problems problems) {
    return columnsByType.computeIfAbsent(type, unused -> resolve(type, problems));
  }

  private List<FieldPathColumn> resolve(FactType type, Problems problems) {
    List<FieldPathColumn> columns = new ArrayList<>();
    for (int position = 0; position < header.size(); position++) {
      if (position != typeColumn && !header.get(position).isEmpty()) {
        FieldPathColumn.resolve(type, header.get(position), position, problems)
            .ifPresent(columns::add);
      }
    }
    return columns;
  }

  private List<String> cells(String text, Problems problems) {
    try (CSVParser parser = CSVParser.parse(text, format)) {
      List<CSVRecord> records = parser.getRecords();
      if (records.size() == 1) {
        return records.get(0).stream().map(String::strip).toList();
      }
      problems.add("", new Given.Rows(records.size()), new TableProblem.SeveralRows());
    } catch (IOException | UncheckedIOException e) {
      problems.add("", new Given.OpenQuotationMark(), new TableProblem.QuotationMarks());
    }
    return List.of();
  }

  private Optional<String> readable(Line line) {
    if (line.isTooLong()) {
      into.accept(FileInput.tooLong(line));
      return Optional.empty();
    }
    Optional<String> text = FileInput.textOf(line.bytes());
    if (text.isEmpty()) {
      into.accept(FileInput.notUtf8(line.number(), line.bytes()));
    }
    return text;
  }

  private static FileInput refused(Line line, Problems problems) {
    return new FileInput(line.number(), line.bytes(), new ReadResult.Refused(problems.list()));
  }

  /** Spreadsheets of many countries write semicolons, or tabs, between cells. */
  private static char delimiterOf(String header) {
    if (header.indexOf(',') >= 0) {
      return ',';
    }
    return header.indexOf(';') >= 0 ? ';' : header.indexOf('\t') >= 0 ? '\t' : ',';
  }
}
