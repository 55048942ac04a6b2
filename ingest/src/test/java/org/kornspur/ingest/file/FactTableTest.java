package org.kornspur.ingest.file;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;
import static org.assertj.core.api.Assertions.tuple;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Consumer;
import org.apache.avro.Schema;
import org.apache.avro.specific.SpecificRecord;
import org.apache.poi.ss.usermodel.CellStyle;
import org.apache.poi.xssf.usermodel.XSSFSheet;
import org.apache.poi.xssf.usermodel.XSSFWorkbook;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.kornspur.contract.Conditioning;
import org.kornspur.contract.Harvest;
import org.kornspur.contract.LotMass;
import org.kornspur.contract.PollenSourceSeen;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.intake.Problem;
import org.kornspur.ingest.json.ReadResult;
import org.kornspur.ingest.problem.CellProblem;
import org.kornspur.ingest.problem.WorkbookProblem;
import org.kornspur.ingest.sheet.UnreadableTable;

class FactTableTest {
  private static final ZoneId BERLIN = ZoneId.of("Europe/Berlin");
  private static final Charset WINDOWS_1252 = Charset.forName("windows-1252");
  private static final Instant NOW = Instant.parse("2026-11-29T12:00:00Z");

  /** Names of a few fields; the others have those of the contract. */
  static final TableWords GERMAN =
      new TableWords() {
        private static final Map<String, String> FIELDS =
            Map.of(
                "cropId", "Bestand",
                "lotId", "Partie",
                "massKg", "Masse, kg",
                "inputs", "Eingang",
                "outputs", "Ausgang",
                "screeningsKg", "Abgang, kg",
                "happenedAt", "Tag und Uhrzeit",
                "sourceDocument", "Beleg",
                "pollenParentRemoved", "Pollenspender vorher entfernt",
                "treatment", "Beizung für Übergrößen");

        @Override
        public String kind(FactType type) {
          return type == FactType.HARVEST ? "Ernte" : type.contractName();
        }

        @Override
        public String field(Schema record, String field) {
          return FIELDS.getOrDefault(field, field);
        }

        @Override
        public String choice(String kind, String constant) {
          return switch (constant) {
            case "true" -> "ja";
            case "false" -> "nein";
            default -> constant;
          };
        }

        @Override
        public String helpSheet() {
          return "Hilfe";
        }

        @Override
        public String reasonColumn() {
          return "Was falsch ist";
        }

        @Override
        public String exampleMark() {
          return "Beispiel, wird nicht gelesen";
        }
      };

  private static final String HARVEST = "Bestand;Partie;Masse, kg;Tag und Uhrzeit;Beleg\n";

  @TempDir Path folder;

  @Test
  void aGermanTableOfAnOldSpreadsheetIsRead() throws Exception {
    String text =
        "Tag und Uhrzeit;Eingang 1: Partie;Eingang 1: Masse, kg;Ausgang 1: Partie;"
            + "AUSGANG 1: masse (kg);Abgang;Beizung für Übergrößen;Beleg\r\n"
            + "3.4.2026 14:30;L-1;1.200,5;L-2;1100;100,5;für Übergrößen;Zettel 7\r\n";
    FactTable table = table("Conditioning.csv", text.getBytes(WINDOWS_1252));

    assertThat(table.form().encoding()).contains("windows-1252");
    assertThat(table.form().delimiter()).contains(';');
    assertThat(table.form().decimalMark()).contains(DecimalMark.COMMA);
    Conditioning fact = (Conditioning) onlyFact(table);
    assertThat(fact.getInputs()).containsExactly(new LotMass("L-1", 1200.5));
    assertThat(fact.getOutputs()).containsExactly(new LotMass("L-2", 1100.0));
    assertThat(fact.getScreeningsKg()).isEqualTo(100.5);
    assertThat(fact.getTreatment()).isEqualTo("für Übergrößen");
    // summer time in April: two hours ahead of UTC
    assertThat(fact.getHeader().getHappenedAt()).isEqualTo(Instant.parse("2026-04-03T12:30:00Z"));
    assertThat(fact.getHeader().getRecordedBy()).isEqualTo("p-1");
    assertThat(fact.getHeader().getRecordedAt()).isEqualTo(NOW);
  }

  @Test
  void columnsOfTheContractStayAsTheyAre() throws Exception {
    FactTable table =
        table(
            "Conditioning-2026.csv",
            "\uFEFFfactId,happenedAt,inputs[0].lotId,inputs[0].massKg,outputs,screeningsKg,sourceDocument\n"
                + "c-1,2026-04-03T14:30:00+02:00,L-1,1200.5,L-2=600.25;L-3=500,100.25,ticket\n");

    Conditioning fact = (Conditioning) onlyFact(table);
    assertThat(FactType.idOf(fact)).isEqualTo("c-1");
    assertThat(fact.getOutputs())
        .containsExactly(new LotMass("L-2", 600.25), new LotMass("L-3", 500.0));
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        // text | other number in the file | read
        "12,5 | 1 | 12.5",
        "12.5 | 1 | 12.5",
        "1.234,5 | 1 | 1234.5",
        "1,234.5 | 1 | 1234.5",
        "1.234.567 | 1 | 1234567",
        "0.125 | 1 | 0.125",
        "1234.567 | 1 | 1234.567",
        "1 234,5 | 1 | 1234.5",
        // a file with decimal commas alone has them here too; so with points
        "1,234 | 7,5 | 1.234",
        "1.234 | 7.5 | 1.234",
        // it parts thousands elsewhere, so it does here
        "1.234 | 2.345,5 | 1234",
        "1,234 | 2,345.5 | 1234"
      })
  void aNumberThatCanBeReadInOneWayIsRead(String text, String other, double number)
      throws Exception {
    FactTable table = table("Ernte.csv", harvest(text, "2026-04-03") + row(other, "2026-04-04"));

    assertThat(((Harvest) facts(table).get(0)).getMassKg()).isEqualTo(number);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {"1.234 | 1", "1,234 | 1", "1.234 | 7,5", "1,234 | 7.5", "1.234 | 7,5 und 7.5"})
  void aNumberThatCanBeReadInTwoWaysIsRefused(String text, String others) throws Exception {
    StringBuilder rows = new StringBuilder(harvest(text, "2026-04-03"));
    for (String other : others.split(" und ")) {
      rows.append(row(other, "2026-04-04"));
    }

    TableRow first = rows(table("Ernte.csv", rows.toString())).get(0);

    assertThat(first.problems())
        .containsExactly(Problem.of("massKg", text, new CellProblem.AmbiguousNumber()));
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        // in the list | beside it | read
        "L-2=1.250 | 7.5 | 1.25",
        "L-2=1,250 | 7,5 | 1.25",
        "L-2=1.250 | 2.345,5 | 1250",
        "L-2=1.250;L-3=10.25 | 1 | 1.25",
        "L-2 1.250 | 2.345,5 | 1250"
      })
  void aMassInAListIsReadAsTheRestOfTheFileSays(String list, String other, double massKg)
      throws Exception {
    Conditioning fact = (Conditioning) onlyFact(listed(list, other));

    assertThat(fact.getOutputs().get(0)).isEqualTo(new LotMass("L-2", massKg));
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {"1.250 | 1", "1,250 | 1", "1.250 | 7,5"})
  void aMassInAListThatCanBeReadInTwoWaysIsRefused(String mass, String other) throws Exception {
    assertThat(rows(listed("L-2=" + mass, other)).get(0).problems())
        .containsExactly(Problem.of("outputs", mass, new CellProblem.AmbiguousNumber()));
  }

  private FactTable listed(String list, String screenings) throws Exception {
    return table(
        "Conditioning.csv",
        "happenedAt\tinputs\toutputs\tscreeningsKg\tsourceDocument\n"
            + "2026-04-03T14:30:00+02:00\tL-1=5000\t"
            + list
            + "\t"
            + screenings
            + "\tticket\n");
  }

  @Test
  void whatAPersonSaysOfTheFileSettlesIt() throws Exception {
    Path file = written("Ernte.csv", harvest("1.234", "03/04/2026").getBytes(UTF_8));

    FactTable comma =
        FactTable.open(
            file,
            "Ernte.csv",
            rules(Optional.of(DecimalMark.COMMA), Optional.of(DayOrder.MONTH_FIRST), Map.of()));

    Harvest fact = (Harvest) onlyFact(comma);
    assertThat(fact.getMassKg()).isEqualTo(1234);
    assertThat(fact.getHeader().getHappenedAt()).isEqualTo(Instant.parse("2026-03-04T11:00:00Z"));
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "2026-04-03 | 1.1.2026 | 2026-04-03T10:00:00Z",
        "3.4.2026 | 1.1.2026 | 2026-04-03T10:00:00Z",
        "03.04.2026 08:05 Uhr | 1.1.2026 | 2026-04-03T06:05:00Z",
        "2026-04-03T08:05 | 1.1.2026 | 2026-04-03T06:05:00Z",
        "25/04/2026 | 1.1.2026 | 2026-04-25T10:00:00Z",
        "04/25/2026 | 1.1.2026 | 2026-04-25T10:00:00Z",
        "03/04/2026 | 25/04/2026 | 2026-04-03T10:00:00Z",
        "03/04/2026 | 04/25/2026 | 2026-03-04T11:00:00Z",
        "2026-10-25T02:30:00+01:00 | 1.1.2026 | 2026-10-25T01:30:00Z"
      })
  void aTimeThatCanBeReadInOneWayIsRead(String text, String other, Instant time) throws Exception {
    FactTable table = table("Ernte.csv", harvest("5", text) + row("6", other));

    assertThat(FactType.headerOf(facts(table).get(0)).getHappenedAt()).isEqualTo(time);
  }

  @Test
  void aTimeThatCanBeReadInTwoWaysOrWasNotThereIsRefused() throws Exception {
    List<TableRow> rows =
        rows(
            table(
                "Ernte.csv",
                harvest("5", "03/04/2026")
                    + row("6", "3.4.26")
                    // clocks of Berlin: forward on 29 March, back on 25 October 2026
                    + row("7", "29.3.2026 02:30")
                    + row("8", "25.10.2026 02:30")));

    assertThat(rows)
        .extracting(row -> row.problems().get(0).reason())
        .containsExactly(
            new CellProblem.AmbiguousDay().coded(),
            new CellProblem.YearOfTwoDigits().coded(),
            new CellProblem.SkippedTime("Europe/Berlin").coded(),
            new CellProblem.DoubledTime("Europe/Berlin").coded());
  }

  @Test
  void theSameRowHasTheSameIdWhateverTheFileAndItsColumns() throws Exception {
    String one = onlyId(table("Ernte.csv", harvest("5,5", "3.4.2026")));
    String other =
        onlyId(
            table(
                "Harvest 2.csv",
                "sourceDocument\tmassKg\tlotId\tcropId\thappenedAt\n"
                    + "Zettel\t5.5\tL-1\tC-1\t2026-04-03T12:00:00+02:00\n"));
    String changed = onlyId(table("Ernte.csv", harvest("5,6", "3.4.2026")));

    // RFC 9562, 5.8: version 8, variant 10
    assertThat(one).isEqualTo(other).isNotEqualTo(changed).matches(".{14}8.{4}[89ab].*");
  }

  @Test
  void aRowThatStandsTwiceIsTold() throws Exception {
    List<TableRow> rows =
        rows(
            table(
                "Ernte.csv",
                harvest("5", "3.4.2026") + row("6", "3.4.2026") + row("5", "3.4.2026")));

    assertThat(rows.get(2).problems())
        .extracting(Problem::reason)
        .containsExactly(new CellProblem.RowTwice(2).coded());
  }

  @Test
  void unknownColumnsAreReportedAndCanBeMappedOrLeftOut() throws Exception {
    String text =
        "Bestand;Partie;Gewicht;Tag und Uhrzeit;Beleg;Wetter;leer;was falsch ist\n"
            + "C-1;L-1;5;3.4.2026;Z;heiter;;nichts\n";
    Path file = written("Ernte.csv", text.getBytes(UTF_8));

    FactTable asItIs = FactTable.open(file, "Ernte.csv", rules());
    assertThat(asItIs.form().sheets().get(0).unknown())
        .extracting(DetectedTable.Column::name)
        .containsExactly("Gewicht", "Wetter");
    FactTable mapped =
        FactTable.open(
            file,
            "Ernte.csv",
            rules(Optional.empty(), Optional.empty(), Map.of("Gewicht", "massKg", "Wetter", "")));
    assertThat(mapped.form().sheets().get(0).unknown()).isEmpty();
    assertThat(((Harvest) onlyFact(mapped)).getMassKg()).isEqualTo(5);
  }

  @Test
  void aUnitThatIsNotThatOfTheFieldIsNotTakenForIt() throws Exception {
    FactTable table =
        table("Ernte.csv", "Bestand;Partie;Masse, g;Tag und Uhrzeit;Beleg\nC-1;L-1;5;3.4.2026;Z\n");

    assertThat(table.form().sheets().get(0).unknown())
        .extracting(DetectedTable.Column::name)
        .containsExactly("Masse, g");
    assertThat(rows(table).get(0).problems()).extracting(Problem::field).containsExactly("massKg");
  }

  @Test
  void aWorkbookIsReadSheetBySheet() throws Exception {
    Path file =
        workbook(
            book -> {
              CellStyle day = book.createCellStyle();
              day.setDataFormat((short) 14);
              XSSFSheet help = book.createSheet("Hilfe");
              help.createRow(0).createCell(0).setCellValue("Bestand");
              XSSFSheet harvests = book.createSheet("Ernte 2026");
              fill(
                  harvests,
                  0,
                  "Partie",
                  "Bestand",
                  "Masse, kg",
                  "Tag und Uhrzeit",
                  "Pollenspender vorher entfernt");
              fill(
                  harvests,
                  1,
                  "Beispiel, wird nicht gelesen",
                  "C-0",
                  1.0,
                  LocalDate.of(2026, 8, 1),
                  "ja");
              fill(harvests, 2, "L-1", "C-1", 1.234, LocalDate.of(2026, 8, 3), "ja");
              fill(harvests, 3, 7.0, "C-1", "1,5", LocalDate.of(2026, 8, 4), false);
              harvests.forEach(row -> row.getCell(3).setCellStyle(day));
              XSSFSheet notes = book.createSheet("Notizen");
              fill(notes, 0, "Allerlei");
            });

    FactTable table = FactTable.open(file, "Saison.xlsx", rules());

    assertThat(table.form().sheetsLeftOut()).containsExactly("Notizen");
    assertThat(facts(table))
        .extracting(fact -> ((Harvest) fact).getLotId(), fact -> ((Harvest) fact).getMassKg())
        .containsExactly(tuple("L-1", 1.234), tuple("7", 1.5));
    assertThat(((Harvest) facts(table).get(0)).getPollenParentRemoved()).isTrue();
    assertThat(FactType.headerOf(facts(table).get(0)).getSourceDocument()).isEqualTo("Saison.xlsx");
  }

  @Test
  void whatASpreadsheetMadeOfACellIsToldAndNotGuessed() throws Exception {
    Path file =
        workbook(
            book -> {
              CellStyle day = book.createCellStyle();
              day.setDataFormat((short) 14);
              XSSFSheet sheet = book.createSheet("Harvest");
              fill(sheet, 0, "Partie", "Bestand", "Masse, kg", "Tag und Uhrzeit");
              fill(sheet, 1, LocalDate.of(2026, 4, 3), "C-1", 5.0, LocalDate.of(2026, 8, 3));
              fill(sheet, 2, "L-1", "C-1", 5.0, 46_115.0);
              fill(sheet, 3, 12_345_678_901_234_567.0, "C-1", 5.0, LocalDate.of(2026, 8, 3));
              fill(sheet, 4, "L-1", "C-1", 5.0, LocalDate.of(2026, 8, 3));
              sheet.getRow(1).getCell(0).setCellStyle(day);
              for (int row : new int[] {1, 3, 4}) {
                sheet.getRow(row).getCell(3).setCellStyle(day);
              }
              sheet.getRow(4).getCell(2).setCellFormula("2+3");
            });

    assertThat(rows(FactTable.open(file, "x.xlsx", rules())))
        .extracting(row -> row.problems().get(0).reason())
        .containsExactly(
            new CellProblem.TakenForDate().coded(),
            new CellProblem.NoDate().coded(),
            new CellProblem.TooManyDigits().coded(),
            new CellProblem.Formula().coded());
  }

  @Test
  void allThatIsWrongInARowIsTold() throws Exception {
    TableRow row =
        rows(table(
                "PollenSourceSeen.csv",
                "sourceId;kind;cropYear;outline;firstSeenOn;happenedAt;sourceDocument\n"
                    + "P 1;RYE;1826;10,1 52,3/10,2;31.2.2026;3.4.2026;Z\n"))
            .get(0);

    assertThat(row.problems())
        .extracting(Problem::field)
        .contains("sourceId", "kind", "cropYear", "firstSeenOn");
  }

  @Test
  void aListInOneCellMayHaveDecimalCommas() throws Exception {
    PollenSourceSeen fact =
        (PollenSourceSeen)
            onlyFact(
                table(
                    "PollenSourceSeen.csv",
                    "sourceId\tkind\tcropYear\toutline\tfirstSeenOn\thappenedAt\tsourceDocument\n"
                        + "P-1\tRYE_CROP\t2026\t10,1 52,35;10,2 52,35;10,2 52,45\t1.5.2026"
                        + "\t3.5.2026\tZ\n"));

    assertThat(fact.getOutline()).hasSize(3);
    assertThat(fact.getOutline().get(1).getLon()).isEqualTo(10.2);
  }

  @ParameterizedTest
  @ValueSource(strings = {"", "\n\n", "Wetter;Wind\nheiter;West\n"})
  void aTableWithoutHeaderIsRefused(String text) throws Exception {
    UnreadableTable refused =
        catchThrowableOfType(UnreadableTable.class, () -> table("Ernte.csv", text));
    assertThat(refused.problem().reason()).isEqualTo(new WorkbookProblem.NoHeader().coded());
  }

  @Test
  void aTableOfUnknownKindOrEncodingIsRefused() throws Exception {
    assertThat(
            catchThrowableOfType(UnreadableTable.class, () -> table("table.csv", HARVEST))
                .problem()
                .reason())
        .isEqualTo(new WorkbookProblem.NoKindOfFact().coded());
    byte[] utf16 = HARVEST.getBytes(StandardCharsets.UTF_16LE);
    assertThat(
            catchThrowableOfType(UnreadableTable.class, () -> table("Ernte.csv", utf16))
                .problem()
                .reason())
        .isEqualTo(new WorkbookProblem.OtherEncoding().coded());
  }

  @Test
  void whatSpreadsheetsWriteBeforeTheHeaderIsHeeded() throws Exception {
    assertThat(onlyId(table("Ernte.csv", "sep=;\r\n" + harvest("5", "3.4.2026"))))
        .isEqualTo(onlyId(table("Ernte.csv", harvest("5", "3.4.2026"))));
  }

  private static String harvest(String mass, String time) {
    return HARVEST + row(mass, time);
  }

  private static String row(String mass, String time) {
    return "C-1;L-1;" + mass + ";" + time + ";Zettel\n";
  }

  private static void fill(XSSFSheet sheet, int number, Object... cells) {
    var row = sheet.createRow(number);
    for (int at = 0; at < cells.length; at++) {
      var cell = row.createCell(at);
      if (cells[at] instanceof String text) {
        cell.setCellValue(text);
      } else if (cells[at] instanceof Double value) {
        cell.setCellValue(value);
      } else if (cells[at] instanceof Boolean flag) {
        cell.setCellValue(flag);
      } else if (cells[at] instanceof LocalDate day) {
        cell.setCellValue(day);
      }
    }
  }

  private static TableReadingOptions rules() {
    return rules(Optional.empty(), Optional.empty(), Map.of());
  }

  private static TableReadingOptions rules(
      Optional<DecimalMark> mark, Optional<DayOrder> order, Map<String, String> columns) {
    return new TableReadingOptions(
        List.of(GERMAN),
        BERLIN,
        Optional.empty(),
        columns,
        mark,
        order,
        "p-1",
        NOW,
        "E-1",
        Optional.empty());
  }

  private FactTable table(String name, String text) throws Exception {
    return table(name, text.getBytes(UTF_8));
  }

  private FactTable table(String name, byte[] bytes) throws Exception {
    return FactTable.open(written(name, bytes), name, rules());
  }

  private Path written(String name, byte[] bytes) throws IOException {
    return Files.write(folder.resolve(name), bytes);
  }

  private Path workbook(Consumer<XSSFWorkbook> with) throws IOException {
    Path file = folder.resolve("book.xlsx");
    try (XSSFWorkbook book = new XSSFWorkbook();
        OutputStream out = Files.newOutputStream(file)) {
      with.accept(book);
      book.write(out);
    }
    return file;
  }

  private static List<TableRow> rows(FactTable table) throws Exception {
    List<TableRow> rows = new ArrayList<>();
    table.read(rows::add);
    return rows;
  }

  private static List<SpecificRecord> facts(FactTable table) throws Exception {
    return rows(table).stream()
        .peek(row -> assertThat(row.problems()).isEmpty())
        .map(row -> ((ReadResult.Fact) row.result()).fact())
        .toList();
  }

  private static SpecificRecord onlyFact(FactTable table) throws Exception {
    List<SpecificRecord> facts = facts(table);
    assertThat(facts).hasSize(1);
    return facts.get(0);
  }

  private static String onlyId(FactTable table) throws Exception {
    return FactType.idOf(onlyFact(table));
  }
}
