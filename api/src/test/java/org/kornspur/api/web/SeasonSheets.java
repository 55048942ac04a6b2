package org.kornspur.api.web;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.Charset;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.regex.MatchResult;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.apache.poi.ss.usermodel.Cell;
import org.apache.poi.ss.usermodel.DataFormatter;
import org.apache.poi.ss.usermodel.Row;
import org.apache.poi.ss.usermodel.Sheet;
import org.apache.poi.xssf.usermodel.XSSFWorkbook;
import org.kornspur.ingest.contract.FactType;

/**
 * A season as five spreadsheets, two of them German, with the faults that people make. The names of
 * columns and the words in cells stand here as a person would write them.
 */
record SeasonSheets(SmallSeason season) {
  /**
   * One spreadsheet.
   *
   * @param leftOut column that holds nothing for the program; empty where there is none
   * @param faults what is typed wrong, and what is right
   */
  record Table(
      String name,
      String mime,
      byte[] content,
      int rows,
      String leftOut,
      Map<String, String> faults) {}

  /** Columns by the last part of their path: in English, in German. */
  private static final Map<String, String> COLUMNS =
      """
      enterpriseId=Enterprise|Betrieb
      name=Name|Name
      kind=Kind|Art
      accreditations=Accreditations|Zulassungen
      test=Test|Prüfung
      validFrom=From|Von
      validTo=To|Bis
      hybridId=Hybrid|Hybride
      components=Components|Komponenten
      componentId=Component|Komponente
      crosses=Crosses|Kreuzungen
      seedComponentId=Seed harvested|Geerntetes Saatgut
      femaleComponentId=Female|Mutter
      pollenComponentId=Pollen parent|Pollenspender
      pollinatorSharePercent=Share of pollinator, %|Anteil des Bestäubers, %
      shareBasis=Share of|Anteil an
      tolerancePercentPoints=Tolerance, percentage points|Toleranz, Prozentpunkte
      lotId=Lot|Partie
      category=Category|Kategorie
      rulebookId=Rulebook|Regelwerk
      cropYear=Year of harvest|Erntejahr
      massKg=Mass, kg|Masse, kg
      sampleId=Sample|Probe
      method=Method|Methode
      kernelsExamined=Kernels examined|Untersuchte Körner
      pollinatorKernels=Pollinator kernels|Körner des Bestäubers
      laboratoryId=Laboratory|Labor
      primarySamples=Primary samples|Einzelproben
      lotMassKg=Mass of the lot, kg|Masse der Partie, kg
      submittedSampleG=Sample sent in, g|Eingesandte Probe, g
      samplerAccreditation=Accreditation of the sampler|Zulassung des Probenehmers
      replicates=Replicates|Wiederholungen
      seeds=Seeds|Samen
      normalSeedlings=Normal seedlings|Normale Keimlinge
      pureSeedG=Pure seed, g|Reine Samen, g
      inertMatterG=Inert matter, g|Unschädliche Verunreinigung, g
      otherSeedsG=Other seeds, g|Andere Samen, g
      moisturePercent=Moisture, %|Feuchtigkeit, %
      sampleG=Mass of the sample, g|Masse der Probe, g
      sampleNumber=First or second sample|Erste oder zweite Probe
      otherCereals=Other cereals, seeds|Andere Getreidearten, Samen
      otherPlants=Other plants, seeds|Andere Pflanzen, Samen
      raphanusAndAgrostemma=Wild radish and corn cockle, seeds|Hederich und Kornrade, Samen
      wildOats=Wild oats, seeds|Flughafer, Samen
      loliumTemulentum=Lolium temulentum, seeds|Taumellolch, Samen
      ergotBodies=Ergot bodies|Mutterkörner
      plotOrTestId=Plot or laboratory number|Parzellen- oder Labornummer
      plantsExamined=Plants examined|Untersuchte Pflanzen
      identityConfirmed=True to its name|Sortenecht
      offTypePlants=Plants not true to type|Nicht sortentypische Pflanzen
      sheddingPlants=Female plants that shed pollen|Stäubende Mutterpflanzen
      cropId=Crop|Bestand
      fieldId=Field|Schlag
      role=Role|Aufgabe
      outline=Corners of the outline|Ecken des Umrisses
      lon=Longitude, degrees|Länge, Grad
      lat=Latitude, degrees|Breite, Grad
      floweringFrom=Flowering from|Blüte von
      floweringTo=Flowering to|Blüte bis
      yearsWithoutRye=Years without rye|Jahre ohne Roggen
      sown=Lots sown|Gesäte Partien
      areaHa=Area, ha|Fläche, ha
      visit=Visit number|Nummer der Besichtigung
      bbchStage=Growth stage, BBCH|Entwicklungsstadium, BBCH
      part=Part of the crop|Teil des Bestands
      plantsCounted=Plants looked at|Angesehene Pflanzen
      areaM2=Area looked at, m²|Angesehene Fläche, m²
      otherCerealPlants=Plants of other cereals|Pflanzen anderer Getreidearten
      hardToSeparatePlants=Plants hard to separate|Schwer trennbare Pflanzen
      wildOatPlants=Wild oat plants|Flughaferpflanzen
      smutPlants=Plants with smut|Brandige Pflanzen
      inputs=Lots in|Eingang
      outputs=Lots out|Ausgang
      screeningsKg=Screenings, kg|Abgang, kg
      customerId=Customer|Kunde
      labelNumbers=Label numbers|Etikettnummern
      """
          .lines()
          .map(line -> line.split("=", 2))
          .collect(Collectors.toMap(part -> part[0], part -> part[1]));

  /** Words that a person writes in place of those of the contract. */
  private static final Map<String, String> WORDS =
      """
      MULTIPLIER=multiplier|Vermehrer
      LABORATORY=laboratory|Labor
      INSPECTION_BODY=inspection body|Prüfstelle
      STERILE_SINGLE_CROSS=sterile single cross|sterile Einfachkreuzung
      RESTORER_POLLINATOR=restorer|Restorer
      VIABLE_KERNELS=viable kernels|die keimfähigen Körner
      BASIC=basic seed|Basissaatgut
      CERTIFIED=certified seed|Zertifiziertes Saatgut
      F1_MIXTURE=mixture for F1 seed|Mischung für F1-Saatgut
      FEMALE=female|weibliche Komponente
      GROW_OUT=plants grown out|Anbau der Pflanzen
      PLOT=Control plot|Kontrollparzelle
      true=Yes|Ja
      """
          .lines()
          .map(line -> line.split("=", 2))
          .collect(Collectors.toMap(part -> part[0], part -> part[1]));

  private static final Map<FactType, String> SHEETS =
      Map.ofEntries(
          Map.entry(FactType.ENTERPRISE_DECLARED, "Enterprise declared|Betrieb gemeldet"),
          Map.entry(FactType.HYBRID_DECLARED, "Hybrid declared|Hybride gemeldet"),
          Map.entry(FactType.LOT_DECLARED, "Lot declared|Partie gemeldet"),
          Map.entry(FactType.FIELD_CROP_DECLARED, "Seed crop declared|Vermehrungsbestand gemeldet"),
          Map.entry(FactType.SOWING, "Sowing|Aussaat"),
          Map.entry(FactType.FIELD_INSPECTION, "Field inspection|Feldbesichtigung"),
          Map.entry(
              FactType.POST_CONTROL_RESULT, "Post-control result|Ergebnis des Nachkontrollanbaus"),
          Map.entry(FactType.HARVEST, "Harvest|Ernte"),
          Map.entry(FactType.CONDITIONING, "Conditioning|Aufbereitung"),
          Map.entry(FactType.DISPATCH, "Dispatch|Auslieferung"),
          Map.entry(FactType.SAMPLING, "Sampling|Probenahme"),
          Map.entry(FactType.GERMINATION_TEST, "Germination test|Keimfähigkeitsprüfung"),
          Map.entry(FactType.PURITY_TEST, "Purity analysis|Reinheitsprüfung"),
          Map.entry(FactType.MOISTURE_TEST, "Moisture test|Feuchtigkeitsprüfung"),
          Map.entry(
              FactType.OTHER_SEED_DETERMINATION,
              "Determination of other seeds by|Zählung der Samen anderer Arten"),
          Map.entry(
              FactType.BLEND_COMPOSITION,
              "Composition of the mixture|Zusammensetzung der Mischung"));

  private static final Pattern PART = Pattern.compile("(\\w+)(?:\\[(\\d+)])?");
  private static final DateTimeFormatter GERMAN_DAY = DateTimeFormatter.ofPattern("d.M.yyyy");

  List<Table> tables() throws IOException {
    String mixture = season.prefix() + "-S-MIX";
    return List.of(
        workbook(
            "Stammdaten 2026.xlsx",
            true,
            "Telefon",
            Map.of("31.6.2025", "1.7.2025"),
            FactType.ENTERPRISE_DECLARED,
            FactType.HYBRID_DECLARED,
            FactType.LOT_DECLARED),
        workbook(
            "Field 2026.xlsx",
            false,
            "",
            Map.of("9OOO", "9000"),
            FactType.FIELD_CROP_DECLARED,
            FactType.SOWING,
            FactType.FIELD_INSPECTION,
            FactType.POST_CONTROL_RESULT),
        workbook(
            "Plant 2026.xlsx",
            false,
            "",
            Map.of("21 tons", "21000"),
            FactType.HARVEST,
            FactType.CONDITIONING,
            FactType.DISPATCH),
        workbook(
            "Laboratory 2026.xlsx",
            false,
            "",
            Map.of(mixture.replace("-S-", " S "), mixture),
            FactType.SAMPLING,
            FactType.GERMINATION_TEST,
            FactType.PURITY_TEST,
            FactType.OTHER_SEED_DETERMINATION,
            FactType.BLEND_COMPOSITION),
        text("Feuchtigkeitsprüfung 2026.csv", Map.of("12,8 Prozent", "12,8")));
  }

  /** Each fault stands in the first row that holds what is right. */
  private Table workbook(
      String name, boolean german, String leftOut, Map<String, String> faults, FactType... types)
      throws IOException {
    Set<String> toSpoil = new LinkedHashSet<>(faults.keySet());
    int rows = 0;
    try (XSSFWorkbook book = new XSSFWorkbook()) {
      for (FactType type : types) {
        List<SmallSeason.Paper> papers = papers(type);
        List<Map<String, String>> lines =
            papers.stream().map(paper -> line(paper, german)).toList();
        List<String> columns =
            lines.stream().flatMap(line -> line.keySet().stream()).distinct().toList();
        Sheet sheet = book.createSheet(word(SHEETS.get(type), german));
        Row head = sheet.createRow(0);
        columns.forEach(column -> head.createCell(columns.indexOf(column)).setCellValue(column));
        if (!leftOut.isEmpty()) {
          head.createCell(columns.size()).setCellValue(leftOut);
        }
        for (Map<String, String> line : lines) {
          Row row = sheet.createRow(sheet.getLastRowNum() + 1);
          if (!leftOut.isEmpty()) {
            row.createCell(columns.size()).setCellValue("0 00 / invented");
          }
          for (Map.Entry<String, String> cell : line.entrySet()) {
            write(
                row.createCell(columns.indexOf(cell.getKey())),
                spoilt(cell.getValue(), faults, toSpoil));
          }
          rows++;
        }
      }
      return new Table(name, EmptySiteTest.XLSX, bytes(book), rows, leftOut, faults);
    }
  }

  /** As an old German program writes it: semicolons, decimal commas, Windows-1252. */
  private Table text(String name, Map<String, String> faults) {
    Set<String> toSpoil = new LinkedHashSet<>(faults.keySet());
    List<Map<String, String>> lines =
        papers(FactType.MOISTURE_TEST).stream().map(paper -> line(paper, true)).toList();
    String text =
        Stream.concat(
                Stream.of(String.join(";", lines.get(0).keySet())),
                lines.stream()
                    .map(
                        line ->
                            line.values().stream()
                                .map(cell -> spoilt(cell, faults, toSpoil))
                                .collect(Collectors.joining(";"))))
            .collect(Collectors.joining("\r\n"));
    return new Table(
        name, "text/csv", text.getBytes(Charset.forName("windows-1252")), lines.size(), "", faults);
  }

  /** The refused rows as a person mends them; the reasons beside them stay. */
  static byte[] mended(byte[] refused, Table of) throws IOException {
    DataFormatter shown = new DataFormatter();
    try (XSSFWorkbook book = new XSSFWorkbook(new ByteArrayInputStream(refused))) {
      book.forEach(
          sheet ->
              sheet.forEach(
                  row ->
                      row.forEach(
                          cell -> {
                            String right = of.faults().get(shown.formatCellValue(cell));
                            if (right != null) {
                              cell.setCellValue(right);
                            }
                          })));
      return bytes(book);
    }
  }

  private List<SmallSeason.Paper> papers(FactType type) {
    return season.papers().stream().filter(paper -> paper.type() == type).toList();
  }

  private static Map<String, String> line(SmallSeason.Paper paper, boolean german) {
    Map<String, String> line = new LinkedHashMap<>();
    line.put(
        german ? "Tag und Uhrzeit" : "Day and time",
        german ? GERMAN_DAY.format(paper.day()) : paper.day().toString());
    line.put(german ? "Beleg" : "Document", paper.document());
    paper
        .values()
        .forEach(
            (path, value) -> {
              if (path.equals("outline")) {
                corners(value, german, line);
              } else {
                line.put(column(path, german), cell(value, german));
              }
            });
    return line;
  }

  private static void corners(String outline, boolean german, Map<String, String> line) {
    List<String> corners = outline.lines().toList();
    for (int at = 0; at < corners.size(); at++) {
      String[] degrees = corners.get(at).split(" ");
      line.put(column("outline[" + at + "].lon", german), cell(degrees[0], german));
      line.put(column("outline[" + at + "].lat", german), cell(degrees[1], german));
    }
  }

  /** As {@code Lots in 1: Mass, kg}. */
  private static String column(String path, boolean german) {
    List<String> parts = new ArrayList<>();
    Matcher part = PART.matcher(path.equals("labelNumbers") ? "labelNumbers[0]" : path);
    part.results()
        .map(MatchResult.class::cast)
        .forEach(
            found -> {
              String name = word(COLUMNS.get(found.group(1)), german);
              parts.add(
                  found.group(2) == null
                      ? name
                      : name + " " + (Integer.parseInt(found.group(2)) + 1));
            });
    return String.join(": ", parts);
  }

  private static String cell(String value, boolean german) {
    String written = WORDS.containsKey(value) ? word(WORDS.get(value), german) : value;
    return german && written.matches("\\d+\\.\\d+") ? written.replace('.', ',') : written;
  }

  private static String word(String both, boolean german) {
    return both.split("\\|")[german ? 1 : 0];
  }

  private static String spoilt(String value, Map<String, String> faults, Set<String> toSpoil) {
    for (String wrong : Set.copyOf(toSpoil)) {
      if (faults.get(wrong).equals(value)) {
        toSpoil.remove(wrong);
        return wrong;
      }
    }
    return value;
  }

  /** Plain numbers as numbers, all else as text. */
  private static void write(Cell cell, String value) {
    if (value.matches("\\d+(\\.\\d+)?") && !value.startsWith("00")) {
      cell.setCellValue(Double.parseDouble(value));
    } else {
      cell.setCellValue(value);
    }
  }

  private static byte[] bytes(XSSFWorkbook book) throws IOException {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    book.write(out);
    return out.toByteArray();
  }
}
