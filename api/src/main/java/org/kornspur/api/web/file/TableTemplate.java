package org.kornspur.api.web.file;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;
import java.util.stream.Collectors;
import org.apache.avro.LogicalTypes;
import org.apache.avro.Schema;
import org.apache.avro.specific.SpecificRecord;
import org.dhatim.fastexcel.Workbook;
import org.dhatim.fastexcel.Worksheet;
import org.kornspur.api.problem.ProblemLanguage;
import org.kornspur.api.storage.SheetCells;
import org.kornspur.api.text.Language;
import org.kornspur.api.text.LocalFormat;
import org.kornspur.api.text.PageTexts;
import org.kornspur.api.text.ReaderWords;
import org.kornspur.api.text.TableTexts;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.file.FactTableWriter;
import org.kornspur.ingest.file.FactTableWriter.Column;
import org.kornspur.ingest.json.FactParser;
import org.kornspur.ingest.json.ReadResult;
import org.kornspur.ingest.problem.Remedy;
import org.kornspur.ingest.sheet.SheetCell;

/**
 * An empty workbook for facts of one kind, made from the contract: a column for each field with its
 * unit, lists to choose from, one row as an example, and a sheet that explains the columns.
 */
final class TableTemplate {
  private static final Map<String, Integer> ELEMENTS =
      Map.of(
          "outline", 8,
          "replicates", 8,
          "inputs", 4,
          "outputs", 4,
          "components", 6,
          "crosses", 4,
          "accreditations", 6);
  private static final int ELEMENTS_OF_OTHERS = 3;
  private static final int ROWS_WITH_LISTS = 1_000;
  private static final int LONGEST_NAME = 31;
  private static final double WIDTH = 18;
  private static final double WIDTH_OF_TEXT = 60;
  private static final Map<FactType, SpecificRecord> EXAMPLES = examples();

  /** Names of columns by path, by language and kind. */
  private static final Map<String, Map<String, String>> NAMES = new ConcurrentHashMap<>();

  private final FactType type;
  private final ReaderWords words;
  private final PageTexts texts;
  private final LocalFormat form;
  private final TableTexts names;
  private final FactTableWriter columns;

  /**
   * @param form in whose language it is, and whose zone its times have
   */
  TableTemplate(FactType type, LocalFormat form, ReaderWords words) {
    this.type = type;
    this.form = form;
    this.words = words;
    this.texts = PageTexts.in(form.language(), "files");
    this.names = TableTexts.in(form.language());
    this.columns = columnsOf(type, names);
  }

  /** The columns that a template has. Who recorded a row, and when, is who sends it, and then. */
  static FactTableWriter columnsOf(FactType type, TableTexts names) {
    Map<String, Integer> elements = new HashMap<>();
    for (Schema.Field field : type.schema().getFields()) {
      elements.put(field.name(), ELEMENTS.getOrDefault(field.name(), ELEMENTS_OF_OTHERS));
    }
    return FactTableWriter.of(type, names, elements, path -> !path.startsWith("header.recorded"));
  }

  /** The name of the column that a field has, for what is wrong with one that has none. */
  static Optional<String> nameOf(FactType type, Language language, String path) {
    return Optional.ofNullable(
        NAMES
            .computeIfAbsent(
                language.tag() + " " + type,
                key ->
                    columnsOf(type, TableTexts.in(language)).columns().stream()
                        .collect(Collectors.toMap(Column::path, Column::name)))
            .get(path));
  }

  static SpecificRecord exampleOf(FactType type) {
    return EXAMPLES.get(type);
  }

  void write(OutputStream out) throws IOException {
    try (Workbook workbook = new Workbook(out, "Kornspur", "1.0")) {
      Worksheet sheet = workbook.newWorksheet(sheetName(names.kind(type)));
      Worksheet help = workbook.newWorksheet(names.helpSheet());
      writeHelp(help);
      List<SheetCell> example = columns.row(EXAMPLES.get(type), form.zone());
      for (int at = 0; at < columns.columns().size(); at++) {
        Column column = columns.columns().get(at);
        sheet.value(0, at, column.name());
        sheet.style(0, at).bold().wrapText(true).set();
        sheet.width(at, WIDTH);
        SheetCell cell = at == 0 ? new SheetCell.Text(names.exampleMark()) : example.get(at);
        SheetCells.put(sheet, 1, at, cell);
        sheet.style(1, at).italic().set();
        int choices = choicesOf(column).size();
        if (choices > 0) {
          int row = at + 1;
          sheet
              .range(1, at, ROWS_WITH_LISTS, at)
              .validateWithList(help.range(row, FIRST_CHOICE, row, FIRST_CHOICE + choices - 1));
        }
      }
      sheet.freezePane(1, 1);
      help.freezePane(1, 1);
      sheet.finish();
      help.finish();
    }
  }

  private static final int FIRST_CHOICE = 4;

  /**
   * A line for each column: name, whether it must be there, what it is, limits; then its choices.
   */
  private void writeHelp(Worksheet help) {
    List<String> header =
        List.of(
            texts.of("helpColumn"),
            texts.of("helpRequired"),
            texts.of("helpWhat"),
            texts.of("helpLimits"),
            texts.of("helpChoices"));
    for (int at = 0; at < header.size(); at++) {
      help.value(0, at, header.get(at));
      help.style(0, at).bold().set();
    }
    help.width(0, WIDTH * 2);
    help.width(2, WIDTH_OF_TEXT);
    help.width(3, WIDTH_OF_TEXT);
    for (int at = 0; at < columns.columns().size(); at++) {
      Column column = columns.columns().get(at);
      help.value(at + 1, 0, column.name());
      help.value(at + 1, 1, names.choice("Flag", Boolean.toString(isRequired(column))));
      String doc = column.record().getField(column.field()).doc();
      help.value(at + 1, 2, doc == null ? "" : words.bundled(doc));
      help.value(at + 1, 3, limits(column));
      List<String> choices = choicesOf(column);
      for (int choice = 0; choice < choices.size(); choice++) {
        help.value(at + 1, FIRST_CHOICE + choice, choices.get(choice));
      }
    }
  }

  /** The id is made of the row where it is left empty, and the paper is then this file. */
  private static boolean isRequired(Column column) {
    return column.required()
        && !column.path().equals("header.factId")
        && !column.path().equals("header.sourceDocument");
  }

  private String limits(Column column) {
    Schema schema = column.schema();
    if (column.path().equals("header.factId")) {
      return texts.of("helpId");
    } else if (schema.getLogicalType() instanceof LogicalTypes.TimestampMillis) {
      return texts.of("helpTime");
    } else if (schema.getObjectProp("min") instanceof Number least
        && schema.getObjectProp("max") instanceof Number most) {
      return texts.of("helpRange", number(least), number(most))
          + " "
          + ProblemLanguage.words(form.language())
              .plain(new Remedy(column.record().getName(), column.field()))
          + ".";
    }
    return "";
  }

  private String number(Number number) {
    return form.number(number.doubleValue(), 3);
  }

  private List<String> choicesOf(Column column) {
    return switch (column.schema().getType()) {
      case ENUM ->
          column.schema().getEnumSymbols().stream()
              .map(constant -> names.choice(column.schema().getName(), constant))
              .toList();
      case BOOLEAN -> List.of(names.choice("Flag", "true"), names.choice("Flag", "false"));
      default -> List.of();
    };
  }

  /** Workbooks allow no longer names of sheets, and not every sign. */
  static String sheetName(String name) {
    String allowed = name.replaceAll("[\\[\\]:*?/\\\\]", " ");
    return allowed.substring(0, Math.min(allowed.length(), LONGEST_NAME)).strip();
  }

  private static Map<FactType, SpecificRecord> examples() {
    Map<FactType, SpecificRecord> examples = new HashMap<>();
    try (BufferedReader lines =
        new BufferedReader(
            new InputStreamReader(
                TableTemplate.class.getResourceAsStream("/files/examples.ndjson"),
                StandardCharsets.UTF_8))) {
      for (String line = lines.readLine(); line != null; line = lines.readLine()) {
        if (FactParser.accept(line) instanceof ReadResult.Fact read) {
          examples.put(FactType.of(read.fact()), read.fact());
        } else {
          throw new IllegalStateException("An example is refused: " + line);
        }
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return Map.copyOf(examples);
  }
}
