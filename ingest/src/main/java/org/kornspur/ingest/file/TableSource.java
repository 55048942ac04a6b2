package org.kornspur.ingest.file;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.intake.Problem;
import org.kornspur.ingest.problem.Given;
import org.kornspur.ingest.problem.WorkbookProblem;
import org.kornspur.ingest.sheet.SheetRow;
import org.kornspur.ingest.sheet.SheetRows;
import org.kornspur.ingest.sheet.UnreadableTable;
import org.kornspur.ingest.sheet.Workbook;

/**
 * Where the rows of a person's table come from: the sheets of a workbook, the features of GeoJSON,
 * or the lines of a text.
 */
final class TableSource {
  private static final int LONGEST_SHEET_NAME = 31;

  private final Path file;
  private final String fileName;
  private final TableReadingOptions rules;
  private final Optional<GeoJsonTable> features;
  private final Optional<TextTable> text;
  private final List<String> leftOut = new ArrayList<>();

  /**
   * A sheet that holds facts.
   *
   * @param number of the sheet in the workbook, from 0
   */
  record Part(int number, String name, FactType kind) {}

  TableSource(Path file, String fileName, TableReadingOptions rules)
      throws IOException, UnreadableTable {
    this.file = file;
    this.fileName = fileName;
    this.rules = rules;
    boolean isWorkbook = Workbook.isWorkbook(file);
    this.features =
        !isWorkbook && GeoJsonTable.isGeoJson(file)
            ? Optional.of(
                GeoJsonTable.of(
                    file, fileName, rules.kind().or(() -> kindNamed(fileName)), rules.near()))
            : Optional.empty();
    this.text = isWorkbook || features.isPresent() ? Optional.empty() : Optional.of(asText());
  }

  private TextTable asText() throws IOException, UnreadableTable {
    FactType kind = rules.kind().or(() -> kindNamed(fileName)).orElseThrow(this::noKind);
    HeaderMatcher names = HeaderMatcher.of(kind, rules.languages());
    return TextTable.of(
        file,
        fileName,
        cells ->
            (int)
                cells.stream()
                    .filter(
                        cell -> names.path(cell).isPresent() || rules.columns().containsKey(cell))
                    .count());
  }

  Optional<String> encoding() {
    return text.map(table -> table.charset().name());
  }

  Optional<Character> delimiter() {
    return text.map(TextTable::delimiter);
  }

  /** Names of sheets that are not read, because nothing says what their rows are. */
  List<String> leftOut() {
    return List.copyOf(leftOut);
  }

  /** The sheets that hold facts. */
  List<Part> parts() throws IOException, UnreadableTable {
    if (features.isPresent()) {
      return features.get().parts();
    } else if (text.isPresent()) {
      return List.of(new Part(0, "", rules.kind().or(() -> kindNamed(fileName)).orElseThrow()));
    }
    List<String> sheets;
    try (Workbook workbook = Workbook.open(file, fileName)) {
      sheets = workbook.sheets();
    }
    List<Part> named = new ArrayList<>();
    Optional<Part> first = Optional.empty();
    Optional<FactType> kindOfFirst = rules.kind().or(() -> kindNamed(fileName));
    for (int number = 0; number < sheets.size(); number++) {
      String name = sheets.get(number);
      if (!isHelp(name)) {
        int at = number;
        first = first.or(() -> kindOfFirst.map(kind -> new Part(at, name, kind)));
        kindNamed(name)
            .filter(kind -> rules.kind().isEmpty() || rules.kind().get() == kind)
            .ifPresent(kind -> named.add(new Part(at, name, kind)));
      }
    }
    List<Part> parts = named.isEmpty() ? first.stream().toList() : named;
    sheets.stream()
        .filter(name -> !isHelp(name) && parts.stream().noneMatch(part -> part.name().equals(name)))
        .forEach(leftOut::add);
    return parts;
  }

  private boolean isHelp(String sheet) {
    return rules.languages().stream()
        .anyMatch(words -> sheet.strip().equalsIgnoreCase(words.helpSheet()));
  }

  /** The kind of fact that a name begins with, in the contract's words or those of people. */
  private Optional<FactType> kindNamed(String name) {
    String normal = HeaderMatcher.normal(name);
    FactType longest = null;
    int length = 0;
    for (FactType type : FactType.values()) {
      if (!type.isAct()) {
        for (String word : wordsFor(type)) {
          if (normal.startsWith(word) && word.length() > length) {
            longest = type;
            length = word.length();
          }
        }
      }
    }
    return Optional.ofNullable(longest);
  }

  private List<String> wordsFor(FactType type) {
    List<String> words = new ArrayList<>();
    words.add(type.contractName().toLowerCase(Locale.ROOT));
    rules.languages().forEach(language -> words.add(HeaderMatcher.normal(language.kind(type))));
    // a workbook keeps no longer name of a sheet
    words.replaceAll(
        word -> word.substring(0, Math.min(word.length(), LONGEST_SHEET_NAME)).strip());
    return words;
  }

  /** The rows of a sheet, the header first. */
  SheetRows rows(Part part) throws IOException, UnreadableTable {
    if (features.isPresent()) {
      return features.get().rows(part);
    } else if (text.isPresent()) {
      return text.get().rows();
    }
    Workbook workbook = Workbook.open(file, fileName);
    try {
      SheetRows rows = workbook.rows(part.number());
      return new SheetRows() {
        @Override
        public Optional<SheetRow> next() throws IOException, UnreadableTable {
          return rows.next();
        }

        @Override
        public void close() throws IOException {
          rows.close();
          workbook.close();
        }
      };
    } catch (UnreadableTable | RuntimeException fault) {
      workbook.close();
      throw fault;
    }
  }

  /** Whether a row only shows what a row looks like. */
  boolean isExample(SheetRow row) {
    String first = row.cell(0).shown();
    return rules.languages().stream()
        .anyMatch(words -> words.exampleMark().equalsIgnoreCase(first));
  }

  /** Whether a column says what is wrong with its rows, or what this program calculated of them. */
  boolean isNeverRead(String column) {
    return (features.isPresent() && GeoJsonFields.CALCULATED.contains(column))
        || rules.languages().stream()
            .anyMatch(words -> words.reasonColumn().equalsIgnoreCase(column));
  }

  /** The paper behind a fact that names none. */
  String document() {
    return Problem.described(fileName);
  }

  UnreadableTable noHeader() {
    return refused(new WorkbookProblem.NoHeader());
  }

  UnreadableTable noKind() {
    return refused(new WorkbookProblem.NoKindOfFact());
  }

  private UnreadableTable refused(WorkbookProblem why) {
    return new UnreadableTable(new Given.SentFile(Problem.described(fileName)), why);
  }
}
