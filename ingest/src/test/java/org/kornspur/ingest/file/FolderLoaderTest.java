package org.kornspur.ingest.file;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.apache.avro.specific.SpecificRecord;
import org.apache.poi.xssf.usermodel.XSSFRow;
import org.apache.poi.xssf.usermodel.XSSFSheet;
import org.apache.poi.xssf.usermodel.XSSFWorkbook;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.kornspur.contract.Harvest;
import org.kornspur.contract.QuarantineEntry;
import org.kornspur.contract.QuarantineOrigin;
import org.kornspur.ingest.contract.Fingerprint;
import org.kornspur.ingest.intake.Problem;
import org.kornspur.ingest.json.AnyFact;
import org.kornspur.ingest.json.AvroJson;
import org.kornspur.ingest.json.ReadResult;
import org.kornspur.ingest.problem.ValueProblem;
import org.kornspur.ingest.sheet.SheetCell;
import org.kornspur.ingest.sheet.UnreadableTable;
import org.kornspur.ingest.statement.Coded;

class FolderLoaderTest {

  private static final TableWords WORDS = FactTableTest.GERMAN;
  private static final Instant NOW = Instant.parse("2024-09-03T12:00:00Z");

  @TempDir Path temporary;

  private Path folder;
  private final Gathered gathered = new Gathered();
  private final Map<String, List<RefusedRow>> refusedRows = new TreeMap<>();

  @BeforeEach
  void makeFolder() throws IOException {
    folder = Files.createDirectory(temporary.resolve("facts"));
  }

  @Test
  void filesAreReadInTheOrderOfTheirNamesWithThoseInFolders() throws IOException {
    write("b.ndjson", moisture("b-1") + "\n\n  \n" + moisture("b-2") + "\n");
    write("a/2.json", "[" + moisture("a2-1") + ",\n " + moisture("a2-2") + "]");
    write("a/1.json", "\uFEFF" + moisture("a1"));
    write("c/MoistureTest.csv", csv("c-1"));

    LoadReport report = load();

    assertThat(gathered.factIds()).containsExactly("a1", "a2-1", "a2-2", "b-1", "b-2", "c-1");
    assertThat(report.summary()).isEqualTo("4 files, 6 inputs: 6 accepted, 0 refused");
  }

  @Test
  void aFolderOfBrokenFilesGivesEachItsReasonAndKeepsTheGood() throws IOException {
    Path outside = Files.writeString(temporary.resolve("outside.json"), moisture("secret"));
    Files.createSymbolicLink(folder.resolve("link.json"), outside);
    Files.createSymbolicLink(folder.resolve("linkedfolder"), temporary);
    Files.write(folder.resolve("archive.zip"), new byte[] {'P', 'K', 3, 4});
    write("README.md", "about these files");
    write(".hidden.json", moisture("hidden"));
    write(".git/x.json", moisture("hidden"));
    write("empty.json", "");
    write("empty.csv", "");
    write("cut.json", "[" + moisture("cut-1") + ",\n" + moisture("cut-2").substring(0, 50));
    write("two.json", moisture("two-1") + moisture("two-2"));
    write("deep.json", "[".repeat(100_000));
    write("long.ndjson", "x".repeat(2_000_000) + "\n" + moisture("after-long"));
    Files.write(
        folder.resolve("latin.ndjson"),
        (moisture("latin-1").replace("report", "Prüfbericht") + "\n" + moisture("latin-2"))
            .getBytes(StandardCharsets.ISO_8859_1));
    write("wide.json", "[" + moisture("w").replace("13.5", "73.5") + "]");

    LoadReport report = load();

    assertThat(gathered.factIds())
        .containsExactlyInAnyOrder("cut-1", "two-1", "after-long", "latin-2");
    assertThat(report.details())
        .extracting(input -> input.file() + ":" + input.line())
        .containsExactly(
            "archive.zip:0",
            "cut.json:2",
            "deep.json:1",
            "empty.csv:1",
            "empty.json:1",
            "latin.ndjson:1",
            "link.json:0",
            "linkedfolder:0",
            "long.ndjson:1",
            "two.json:1",
            "wide.json:1");
    assertThat(report.passedOver()).containsExactly(".hidden.json", "README.md");
    assertThat(report.refused()).isEqualTo(11);
    assertThat(gathered.refused).hasSize(8);
    assertThat(report.text())
        .contains("wide.json:1 refused")
        .contains("moisturePercent is 73.5; expected 1\u00a0% to 60\u00a0%")
        .contains("archive.zip refused")
        .contains("a line of 2,000,000 bytes")
        .endsWith("4 accepted, 11 refused\n");
  }

  @Test
  void aRefusedLineIsHeldWholeUnderTheHashOfItsBytes() throws Exception {
    String line = "{\"type\": \"Nonsense\", \"x\": \"äöü\"}";
    write("x.ndjson", moisture("ok") + "\r\n" + line + "\r\n");

    load();

    QuarantineEntry entry = gathered.refused.get(0);
    byte[] bytes = line.getBytes(StandardCharsets.UTF_8);
    MessageDigest hash = MessageDigest.getInstance("SHA-256");
    hash.update((byte) 0);
    assertThat(entry.getEntryId()).isEqualTo(HexFormat.of().formatHex(hash.digest(bytes)));
    assertThat(entry.getOriginalValue().array()).isEqualTo(bytes);
    assertThat(entry.getOriginalKey()).isNull();
    assertThat(entry.getOrigin()).isEqualTo(QuarantineOrigin.FILE);
    assertThat(entry.getPlace()).isEqualTo("x.ndjson:2");
    assertThat(entry.getReceivedAt()).isEqualTo(NOW);
    assertThat(entry.getProblems())
        .singleElement()
        .extracting(stored -> Problem.of(stored).reason().code())
        .isEqualTo(Coded.codeOf(ValueProblem.UnknownType.class));
  }

  @Test
  void anElementOfAnArrayIsHeldAsItStands() throws IOException {
    String bad = moisture("x").replace("13.5", "\"wet\"");
    write(
        "list.json", "[\n" + moisture("ok") + ",\n  " + bad + " ,\n" + moisture("ok-2") + "\n]\n");

    load();

    assertThat(gathered.factIds()).containsExactly("ok", "ok-2");
    assertThat(
            new String(gathered.refused.get(0).getOriginalValue().array(), StandardCharsets.UTF_8))
        .isEqualTo(bad);
    assertThat(gathered.refused.get(0).getPlace()).isEqualTo("list.json:3");
  }

  @Test
  void theSameFolderTwiceGivesTheSameFacts() throws IOException {
    write("a.ndjson", moisture("a") + "\nnonsense\n");

    load();
    load();

    assertThat(gathered.facts.get(0)).isEqualTo(gathered.facts.get(1));
    assertThat(gathered.refused.get(0).getEntryId())
        .isEqualTo(gathered.refused.get(1).getEntryId());
  }

  @Test
  void aSingleFileMayBeLoadedAndAMissingFolderMayNot() throws IOException {
    write("a.json", moisture("a"));

    FolderLoader.load(folder.resolve("a.json"), Clock.systemUTC(), gathered, LoadProgress.SILENT);

    assertThat(gathered.factIds()).containsExactly("a");
    assertThatThrownBy(
            () ->
                FolderLoader.load(
                    folder.resolve("none"), Clock.systemUTC(), gathered, LoadProgress.SILENT))
        .isInstanceOf(IOException.class);
  }

  @Test
  void whatTheSinkThrowsEndsTheLoad() throws IOException {
    write("a.ndjson", moisture("a") + "\n" + moisture("b"));
    Gathered full = new Gathered();

    assertThatThrownBy(
            () ->
                FolderLoader.load(
                    folder,
                    Clock.systemUTC(),
                    new org.kornspur.ingest.intake.FactSink() {
                      @Override
                      public void accept(SpecificRecord fact) {
                        if (!full.facts.isEmpty()) {
                          throw new IllegalStateException("full");
                        }
                        full.accept(fact);
                      }

                      @Override
                      public void refuse(QuarantineEntry entry) {
                        full.refuse(entry);
                      }
                    },
                    LoadProgress.SILENT))
        .hasMessage("full");
    assertThat(full.factIds()).containsExactly("a");
  }

  /** As a farm writes it: its own names of columns, decimal commas, days without a time. */
  @Test
  void tablesOfPeopleAreReadBesideThoseOfTheContract() throws Exception {
    write(
        "Ernte 2026.csv",
        "Bestand;Partie;Masse, kg;happenedAt;sourceDocument\n"
            + "C-1;L-1;1200,5;3.8.2024;Zettel 1\n"
            + "C-1;L-2;viel;3.8.2024;Zettel 2\n");
    write(
        "Harvest.csv",
        "factId,recordedBy,happenedAt,recordedAt,sourceDocument,cropId,lotId,massKg\n"
            + "h-1,p-1,2024-08-03T08:00:00Z,2024-08-03T09:00:00Z,slip,C-1,L-3,5\n");
    try (XSSFWorkbook book = new XSSFWorkbook();
        OutputStream out = Files.newOutputStream(folder.resolve("book.xlsx"))) {
      XSSFSheet sheet = book.createSheet("Ernte");
      String[] header = {"Bestand", "Partie", "Masse, kg", "happenedAt", "sourceDocument"};
      for (int at = 0; at < header.length; at++) {
        (at == 0 ? sheet.createRow(0) : sheet.getRow(0)).createCell(at).setCellValue(header[at]);
      }
      XSSFRow row = sheet.createRow(1);
      row.createCell(0).setCellValue("C-1");
      row.createCell(1).setCellValue("L-4");
      row.createCell(2).setCellValue(7.25);
      row.createCell(3).setCellValue("3.8.2024");
      row.createCell(4).setCellValue("Zettel 4");
      book.write(out);
    }
    write("notes.xlsx", "no workbook");

    LoadReport report = loadWithWords();
    LoadReport again = loadWithWords();

    assertThat(gathered.facts)
        .hasSize(6)
        .allSatisfy(fact -> assertThat(fact).isInstanceOf(Harvest.class));
    assertThat(
            gathered.facts.stream()
                .map(fact -> ((Harvest) fact).getLotId() + " " + ((Harvest) fact).getMassKg()))
        .containsExactlyInAnyOrder(
            "L-1 1200.5", "L-3 5.0", "L-4 7.25", "L-1 1200.5", "L-3 5.0", "L-4 7.25");
    assertThat(gathered.facts.stream().map(Fingerprint::of).distinct()).hasSize(3);
    assertThat(report.details())
        .extracting(
            one -> one.file() + ":" + one.line() + " " + one.problems().get(0).reason().code())
        .containsExactly(
            "Ernte 2026.csv:3 cell-problem.no-number",
            "notes.xlsx:0 workbook-problem.no-kind-of-fact");
    assertThat(report.details().get(0).original()).contains("\"Partie\":\"L-2\"", "viel");
    assertThat(again.refused()).isEqualTo(report.refused());
    assertThat(refusedRows).containsOnlyKeys("Ernte 2026.csv", "book.xlsx");
    assertThat(refusedRows.get("book.xlsx")).isEmpty();
    assertThat(refusedRows.get("Ernte 2026.csv"))
        .singleElement()
        .satisfies(row -> assertThat(row.cells()).contains(new SheetCell.Text("viel")));
  }

  @Test
  void aColumnOfNoFieldRefusesATableThatNobodyCanBeAskedAbout() throws Exception {
    write("Ernte.csv", "Bestand;Partie;Gewicht netto;happenedAt\nC-1;L-1;5;3.8.2024\n");

    LoadReport report = loadWithWords();

    assertThat(gathered.facts).isEmpty();
    assertThat(report.details())
        .singleElement()
        .satisfies(
            one ->
                assertThat(one.problems())
                    .extracting(problem -> problem.reason().code())
                    .contains("table-problem.unknown-column"));
  }

  private LoadReport loadWithWords() throws IOException {
    return FolderLoader.load(
        folder,
        List.of(WORDS),
        (name, form, rows) -> refusedRows.put(name, rows),
        Clock.systemUTC(),
        gathered,
        LoadProgress.SILENT);
  }

  @Property(tries = 300)
  void randomBytesInAnyFormatGiveRefusalsAndNothingElse(@ForAll byte[] bytes) throws IOException {
    for (FileFormat format : FileFormat.values()) {
      assertThat(read(format, bytes))
          .allSatisfy(input -> assertThat(input.result()).isInstanceOf(ReadResult.Refused.class));
    }
  }

  @Provide
  Arbitrary<SpecificRecord> facts() {
    return AnyFact.ofAnyType();
  }

  @Property(tries = 300)
  void aFileOfFactsWithBytesChangedIsReadToItsEnd(
      @ForAll("facts") SpecificRecord fact, @ForAll int place, @ForAll byte changed)
      throws IOException {
    String json = AvroJson.write(fact).toString();
    byte[] good = ("[" + json + "," + json + "]").getBytes(StandardCharsets.UTF_8);
    byte[] lines = (json + "\n" + json).getBytes(StandardCharsets.UTF_8);
    good[Math.floorMod(place, good.length)] = changed;
    lines[Math.floorMod(place, lines.length)] = changed;

    assertThat(read(FileFormat.JSON, good)).isNotEmpty();
    assertThat(read(FileFormat.NDJSON, lines)).isNotEmpty();
    assertThat(read(FileFormat.CSV, lines)).isNotEmpty();
  }

  private static List<FileInput> read(FileFormat format, byte[] bytes) throws IOException {
    List<FileInput> inputs = new ArrayList<>();
    Path folder = Files.createTempDirectory("format");
    Path file = Files.write(folder.resolve("Sowing.csv"), bytes);
    try {
      format.read(
          file,
          List.of(WORDS),
          new FileInputs() {
            @Override
            public List<Problem> take(FileInput input) {
              inputs.add(input);
              return List.of();
            }

            @Override
            public void takeRefused(DetectedTable form, List<RefusedRow> rows) {}
          });
    } catch (UnreadableTable refused) {
      assertThat(refused.problem().reason()).isNotNull();
    } finally {
      Files.delete(file);
      Files.delete(folder);
    }
    return inputs;
  }

  private LoadReport load() throws IOException {
    return FolderLoader.load(
        folder, Clock.fixed(NOW, ZoneOffset.UTC), gathered, LoadProgress.SILENT);
  }

  private void write(String name, String text) throws IOException {
    Path file = folder.resolve(name);
    Files.createDirectories(file.getParent());
    Files.writeString(file, text);
  }

  static String moisture(String factId) {
    return """
    {"type": "MoistureTest", "header": {"factId": "%s", "recordedBy": "lab-03", \
    "happenedAt": "2024-09-02T10:00:00Z", "recordedAt": "2024-09-02T10:05:00Z", \
    "sourceDocument": "report"}, "lotId": "L", "sampleId": "S", "moisturePercent": 13.5, \
    "laboratoryId": "E"}\
    """
        .formatted(factId);
  }

  static String csv(String factId) {
    return """
    factId,recordedBy,happenedAt,recordedAt,sourceDocument,lotId,sampleId,moisturePercent,laboratoryId
    %s,lab-03,2024-09-02T10:00:00Z,2024-09-02T10:05:00Z,report,L,S,13.5,E
    """
        .formatted(factId);
  }
}
