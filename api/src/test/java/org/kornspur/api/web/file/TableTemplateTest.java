package org.kornspur.api.web.file;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.math.BigDecimal;
import java.nio.charset.Charset;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.Collection;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.apache.avro.Schema;
import org.apache.avro.specific.SpecificRecord;
import org.apache.poi.xssf.usermodel.XSSFSheet;
import org.apache.poi.xssf.usermodel.XSSFWorkbook;
import org.dhatim.fastexcel.Workbook;
import org.dhatim.fastexcel.Worksheet;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.kornspur.api.storage.SheetCells;
import org.kornspur.api.text.Audience;
import org.kornspur.api.text.Language;
import org.kornspur.api.text.LocalFormat;
import org.kornspur.api.text.ReaderWords;
import org.kornspur.api.text.TableTexts;
import org.kornspur.contract.QuarantineEntry;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.file.FactTable;
import org.kornspur.ingest.file.FactTableWriter;
import org.kornspur.ingest.file.FolderLoader;
import org.kornspur.ingest.file.LoadProgress;
import org.kornspur.ingest.file.TableReadingOptions;
import org.kornspur.ingest.file.TableRow;
import org.kornspur.ingest.intake.FactSink;
import org.kornspur.ingest.json.AvroJson;
import org.kornspur.ingest.json.ReadResult;
import org.kornspur.ingest.sheet.SheetCell;

/**
 * What is written to a table comes back as it was: the examples of templates, and every fact of the
 * demo, in every form that spreadsheet programs save. The texts are written here, not by the
 * program.
 */
class TableTemplateTest {
  private static final ZoneId BERLIN = ZoneId.of("Europe/Berlin");
  private static final Instant NOW = Instant.parse("2026-11-29T12:00:00Z");
  private static final Path DEMO = Path.of("..", "demo-events");
  private static final Map<FactType, Map<String, SpecificRecord>> FACTS =
      new EnumMap<>(FactType.class);

  @TempDir static Path folder;

  /** A form in which programs save text. */
  private enum TextForm {
    GERMAN_OLD(';', "windows-1252", "", ',', "d.M.yyyy HH:mm:ss", "d.M.yyyy"),
    GERMAN_NEW(';', "UTF-8", "\uFEFF", ',', "dd.MM.yyyy HH:mm:ss", "dd.MM.yyyy"),
    ENGLISH(',', "UTF-8", "", '.', "yyyy-MM-dd HH:mm:ss", "yyyy-MM-dd"),
    TABS('\t', "windows-1252", "", '.', "yyyy-MM-dd'T'HH:mm:ss", "yyyy-MM-dd");

    private final char delimiter;
    private final Charset charset;
    private final String beginning;
    private final char mark;
    private final DateTimeFormatter times;
    private final DateTimeFormatter days;

    TextForm(
        char delimiter, String charset, String beginning, char mark, String times, String days) {
      this.delimiter = delimiter;
      this.charset = Charset.forName(charset);
      this.beginning = beginning;
      this.mark = mark;
      this.times = DateTimeFormatter.ofPattern(times, Locale.ROOT);
      this.days = DateTimeFormatter.ofPattern(days, Locale.ROOT);
    }

    private String cell(SheetCell cell, boolean isDay) {
      if (cell instanceof SheetCell.Number number) {
        return number(number.number()).replace('.', mark);
      } else if (cell instanceof SheetCell.Moment moment) {
        return (isDay ? days : times).format(moment.time());
      }
      String text = cell.shown();
      boolean needsQuotes = text.indexOf(delimiter) >= 0 || text.indexOf('"') >= 0;
      return needsQuotes ? '"' + text.replace("\"", "\"\"") + '"' : text;
    }

    /** With one more decimal where three could be thousands. */
    private static String number(BigDecimal number) {
      return number.scale() == 3 ? number.toPlainString() + "0" : number.toPlainString();
    }
  }

  @BeforeAll
  static void loadDemo() throws IOException {
    FactSink sink =
        new FactSink() {
          @Override
          public void accept(SpecificRecord fact) {
            FACTS
                .computeIfAbsent(FactType.of(fact), type -> new LinkedHashMap<>())
                .putIfAbsent(FactType.idOf(fact), fact);
          }

          @Override
          public void refuse(QuarantineEntry entry) {
            // the demo has broken files, which are no facts
          }
        };
    FolderLoader.load(DEMO, Clock.systemUTC(), sink, LoadProgress.SILENT);
    assertThat(FACTS).hasSizeGreaterThan(20);
  }

  @ParameterizedTest
  @EnumSource(Language.class)
  void everyTemplateIsReadAndItsExampleComesBack(Language language) throws Exception {
    for (FactType type : FactType.values()) {
      if (type.isAct()) {
        continue;
      }
      Path file = folder.resolve("template.xlsx");
      try (OutputStream out = Files.newOutputStream(file)) {
        template(type, language).write(out);
      }
      assertThat(read(file)).as("an example is no fact: " + type).isEmpty();

      List<SpecificRecord> read = read(withoutMark(file, type));
      assertThat(read).hasSize(1);
      assertThat(content(read.get(0))).isEqualTo(content(TableTemplate.exampleOf(type)));
    }
  }

  @ParameterizedTest
  @EnumSource(Language.class)
  void everyFactOfTheDemoComesBackFromAWorkbook(Language language) throws Exception {
    for (Map.Entry<FactType, Map<String, SpecificRecord>> ofType : FACTS.entrySet()) {
      List<SpecificRecord> facts = List.copyOf(ofType.getValue().values());
      FactTableWriter columns = columns(ofType.getKey(), language, facts);
      Path file = folder.resolve("facts.xlsx");
      try (OutputStream out = Files.newOutputStream(file);
          Workbook workbook = new Workbook(out, "Test", "1.0")) {
        Worksheet sheet = workbook.newWorksheet(ofType.getKey().contractName());
        for (int at = 0; at < columns.columns().size(); at++) {
          sheet.value(0, at, columns.columns().get(at).name());
        }
        for (int row = 0; row < facts.size(); row++) {
          List<SheetCell> cells = columns.row(facts.get(row), BERLIN);
          for (int at = 0; at < cells.size(); at++) {
            SheetCells.put(sheet, row + 1, at, cells.get(at));
          }
        }
      }
      assertThat(read(file)).isEqualTo(facts);
    }
  }

  @ParameterizedTest
  @EnumSource(TextForm.class)
  void everyFactOfTheDemoComesBackFromAText(TextForm form) throws Exception {
    for (Map.Entry<FactType, Map<String, SpecificRecord>> ofType : FACTS.entrySet()) {
      List<SpecificRecord> facts = List.copyOf(ofType.getValue().values());
      Language language =
          form == TextForm.ENGLISH || form == TextForm.TABS ? Language.ENGLISH : Language.GERMAN;
      FactTableWriter columns = columns(ofType.getKey(), language, facts);
      StringBuilder text = new StringBuilder(form.beginning);
      text.append(
          columns.columns().stream()
              .map(column -> form.cell(SheetCell.of(column.name()), false))
              .collect(Collectors.joining(String.valueOf(form.delimiter), "", "\r\n")));
      for (SpecificRecord fact : facts) {
        List<SheetCell> cells = columns.row(fact, BERLIN);
        text.append(
            IntStream.range(0, cells.size())
                .mapToObj(at -> form.cell(cells.get(at), isDay(columns.columns().get(at).schema())))
                .collect(Collectors.joining(String.valueOf(form.delimiter), "", "\r\n")));
      }
      Path file = folder.resolve(ofType.getKey().contractName() + ".csv");
      Files.write(file, text.toString().getBytes(form.charset));

      assertThat(read(file)).isEqualTo(facts);
    }
  }

  @Test
  void choicesAreOfferedInTheCells() throws Exception {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    template(FactType.FIELD_CROP_DECLARED, Language.GERMAN).write(out);

    try (XSSFWorkbook book = new XSSFWorkbook(new ByteArrayInputStream(out.toByteArray()))) {
      // role, category, and two or three flags
      assertThat(book.getSheetAt(0).getDataValidations()).hasSizeGreaterThanOrEqualTo(4);
      assertThat(book.getSheetAt(1).getSheetName()).isEqualTo("Hilfe");
    }
  }

  private static TableTemplate template(FactType type, Language language) {
    LocalFormat form = new LocalFormat(language, BERLIN);
    return new TableTemplate(
        type, form, new ReaderWords(Audience.ofEverything(form, LocalDate.of(2026, 11, 29))));
  }

  private static boolean isDay(Schema schema) {
    return schema.getLogicalType() != null && schema.getLogicalType().getName().equals("date");
  }

  private static FactTableWriter columns(
      FactType type, Language language, List<SpecificRecord> facts) {
    return FactTableWriter.of(type, TableTexts.in(language), elementsOf(facts), path -> true);
  }

  /** The most elements that these facts have in each list, by the name of the list. */
  private static Map<String, Integer> elementsOf(List<SpecificRecord> facts) {
    Map<String, Integer> elements = new HashMap<>();
    for (SpecificRecord fact : facts) {
      for (Schema.Field field : fact.getSchema().getFields()) {
        if (fact.get(field.pos()) instanceof Collection<?> list) {
          elements.merge(field.name(), list.size(), Math::max);
        }
      }
    }
    return elements;
  }

  private static Path withoutMark(Path template, FactType type) throws IOException {
    Path file = folder.resolve("example.xlsx");
    try (InputStream in = Files.newInputStream(template);
        XSSFWorkbook book = new XSSFWorkbook(in);
        OutputStream out = Files.newOutputStream(file)) {
      XSSFSheet sheet = book.getSheetAt(0);
      sheet.getRow(1).getCell(0).setBlank();
      assertThat(sheet.getLastRowNum()).as(type.name()).isEqualTo(1);
      book.write(out);
    }
    return file;
  }

  /** A fact without what a table fills in. */
  private static String content(SpecificRecord fact) {
    ObjectNode json = AvroJson.write(fact);
    ((ObjectNode) json.get("header")).remove(List.of("factId", "recordedBy", "recordedAt"));
    return json.toString();
  }

  private static List<SpecificRecord> read(Path file) throws Exception {
    FactTable table =
        FactTable.open(
            file,
            file.getFileName().toString(),
            new TableReadingOptions(
                TableTexts.all(),
                BERLIN,
                Optional.empty(),
                Map.of(),
                Optional.empty(),
                Optional.empty(),
                "p-1",
                NOW,
                "",
                Optional.empty()));
    assertThat(table.form().sheets()).allSatisfy(sheet -> assertThat(sheet.unknown()).isEmpty());
    List<TableRow> rows = new ArrayList<>();
    table.read(rows::add);
    assertThat(rows).allSatisfy(row -> assertThat(row.problems()).isEmpty());
    return rows.stream().map(row -> ((ReadResult.Fact) row.result()).fact()).toList();
  }
}
