package org.kornspur.ingest.file;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.io.InputStream;
import java.math.BigDecimal;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import org.kornspur.contract.GeoPoint;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.intake.Problem;
import org.kornspur.ingest.problem.Given;
import org.kornspur.ingest.problem.WorkbookProblem;
import org.kornspur.ingest.sheet.SheetCell;
import org.kornspur.ingest.sheet.SheetRow;
import org.kornspur.ingest.sheet.SheetRows;
import org.kornspur.ingest.sheet.UnreadableTable;

/**
 * GeoJSON as a table: a feature is a row with its number, a property a cell under its name, the
 * geometry the cell of the outline. Zones that this program calculated are passed over.
 *
 * @param names of the properties of each kind of fact, in the order in which they come
 * @param middle where the fields lie; empty where there is one alone and no other is known
 */
record GeoJsonTable(
    Path file,
    String fileName,
    Optional<FactType> usualKind,
    Map<FactType, List<String>> names,
    Optional<GeoPoint> middle) {

  static boolean isGeoJson(Path file) throws IOException {
    try (InputStream in = Files.newInputStream(file)) {
      for (byte one : in.readNBytes(64)) {
        boolean isSpaceOrMark = one <= ' '; // bytes of a byte order mark are negative
        if (!isSpaceOrMark) {
          return one == '{';
        }
      }
      return false;
    }
  }

  /**
   * Reads through a file.
   *
   * @param usualKind of features that do not say what they are
   * @param near a place near the fields of the site
   */
  static GeoJsonTable of(
      Path file, String fileName, Optional<FactType> usualKind, Optional<GeoPoint> near)
      throws IOException, UnreadableTable {
    Map<FactType, Set<String>> names = new EnumMap<>(FactType.class);
    List<GeoPoint> places = new ArrayList<>();
    try (GeoJsonFeatures features = GeoJsonFeatures.open(file, fileName)) {
      for (Optional<GeoJsonFeatures.Feature> next = features.next();
          next.isPresent();
          next = features.next()) {
        Optional<FactType> kind = kindOf(next.get(), usualKind);
        if (kind.isPresent()) {
          Set<String> ofKind = names.computeIfAbsent(kind.get(), type -> new LinkedHashSet<>());
          next.get().properties().fieldNames().forEachRemaining(ofKind::add);
          if (ofKind.size() > SheetRows.MOST_COLUMNS) {
            throw refused(fileName, new WorkbookProblem.TooManyColumns(SheetRows.MOST_COLUMNS));
          }
          GeoJsonOutline.of(next.get().geometry()).place().ifPresent(places::add);
        } else if (!isZone(next.get())) {
          throw refused(fileName, new WorkbookProblem.NoKindOfFact());
        }
      }
    }
    Map<FactType, List<String>> columns = new EnumMap<>(FactType.class);
    names.forEach(
        (kind, all) -> {
          all.remove(GeoJsonFields.FEATURE);
          columns.put(kind, List.copyOf(all));
        });
    return new GeoJsonTable(
        file,
        fileName,
        usualKind,
        columns,
        near.or(() -> places.size() < 2 ? Optional.empty() : middleOf(places)));
  }

  private static UnreadableTable refused(String fileName, WorkbookProblem why) {
    return new UnreadableTable(new Given.SentFile(Problem.described(fileName)), why);
  }

  private static Optional<GeoPoint> middleOf(List<GeoPoint> places) {
    return Optional.of(
        new GeoPoint(
            median(places.stream().map(GeoPoint::getLon)),
            median(places.stream().map(GeoPoint::getLat))));
  }

  private static double median(Stream<Double> degrees) {
    List<Double> sorted = degrees.sorted(Comparator.naturalOrder()).toList();
    return sorted.get(sorted.size() / 2);
  }

  private static Optional<FactType> kindOf(
      GeoJsonFeatures.Feature feature, Optional<FactType> usualKind) {
    JsonNode said = feature.properties().path(GeoJsonFields.FEATURE);
    Optional<FactType> kind = Optional.ofNullable(GeoJsonFields.FACTS.get(said.asText()));
    return kind.isPresent() || isZone(feature) ? kind : usualKind;
  }

  private static boolean isZone(GeoJsonFeatures.Feature feature) {
    return feature
        .properties()
        .path(GeoJsonFields.FEATURE)
        .asText()
        .equals(GeoJsonFields.ISOLATION_ZONE);
  }

  /** A part for each kind of fact. */
  List<TableSource.Part> parts() {
    return names.keySet().stream()
        .map(kind -> new TableSource.Part(kind.ordinal(), kind.contractName(), kind))
        .toList();
  }

  /** The header, then a row for each feature of a kind. */
  SheetRows rows(TableSource.Part part) throws IOException, UnreadableTable {
    GeoJsonFeatures features = GeoJsonFeatures.open(file, fileName);
    return new SheetRows() {
      private int rows;

      @Override
      public Optional<SheetRow> next() throws IOException, UnreadableTable {
        if (rows++ == 0) {
          return Optional.of(header(part.kind()));
        } else if (rows > MOST_ROWS) {
          throw refused(fileName, new WorkbookProblem.TooManyRows(MOST_ROWS));
        }
        Optional<GeoJsonFeatures.Feature> feature = features.next();
        while (feature.isPresent()
            && kindOf(feature.get(), usualKind).filter(part.kind()::equals).isEmpty()) {
          feature = features.next();
        }
        return feature.map(one -> row(one, part.kind()));
      }

      @Override
      public void close() throws IOException {
        features.close();
      }
    };
  }

  private SheetRow header(FactType kind) {
    List<SheetCell> cells = new ArrayList<>();
    cells.add(new SheetCell.Text(GeoJsonFields.OUTLINE));
    names.get(kind).forEach(name -> cells.add(SheetCell.of(name)));
    return new SheetRow(0, cells);
  }

  private SheetRow row(GeoJsonFeatures.Feature feature, FactType kind) {
    List<SheetCell> cells = new ArrayList<>();
    cells.add(GeoJsonOutline.of(feature.geometry()).cell(feature.properties(), middle));
    names.get(kind).forEach(name -> cells.add(cell(feature.properties().path(name))));
    return new SheetRow(feature.number(), cells);
  }

  private static SheetCell cell(JsonNode value) {
    if (value.isMissingNode() || value.isNull()) {
      return new SheetCell.Empty();
    } else if (value.isBoolean()) {
      return new SheetCell.Flag(value.booleanValue());
    } else if (value.isNumber() && Double.isFinite(value.doubleValue())) {
      return new SheetCell.Number(
          value.isIntegralNumber()
              ? value.decimalValue()
              : BigDecimal.valueOf(value.doubleValue()));
    }
    return SheetCell.of(value.isTextual() ? value.textValue() : value.toString());
  }
}
