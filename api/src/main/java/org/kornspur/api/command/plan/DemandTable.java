package org.kornspur.api.command.plan;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.problem.PlanDetail;
import org.kornspur.api.problem.ProblemKind;
import org.kornspur.api.query.plan.PlanDefinition;
import org.kornspur.api.text.Language;
import org.kornspur.api.text.TypedNumber;
import org.kornspur.ingest.file.PlainTable;
import org.kornspur.ingest.problem.Given;
import org.kornspur.ingest.sheet.SheetCell;
import org.kornspur.ingest.sheet.SheetRow;
import org.kornspur.ingest.sheet.UnreadableTable;

/** Reads demand from a person's table: a row for each hybrid and harvest. */
public final class DemandTable {

  /** What a column may hold, with the names that it may have, in either language. */
  enum Column {
    HYBRID("hybrid", "hybride"),
    HARVEST("harvest", "ernte", "year", "jahr"),
    TONNES("tonnes", "tonnen", "expected", "erwartet"),
    LOW("low", "niedrig"),
    HIGH("high", "hoch"),
    WEIGHT("weight", "gewicht");

    private final Set<String> names;

    Column(String... names) {
      this.names = Set.of(names);
    }

    boolean isNamed(String header) {
      String word = header.strip().toLowerCase(Locale.ROOT).split("[ (,]", 2)[0];
      return names.contains(word);
    }
  }

  private final Map<Column, Integer> columns = new EnumMap<>(Column.class);
  private final Language language;

  private DemandTable(SheetRow header, Language language) {
    this.language = language;
    for (int at = 0; at < header.cells().size(); at++) {
      for (Column column : Column.values()) {
        if (column.isNamed(header.cell(at).shown())) {
          columns.putIfAbsent(column, at);
        }
      }
    }
  }

  /**
   * The demand of a table.
   *
   * @param name of the file, as the person calls it
   * @param language by whose customs numbers that are text are written
   * @throws ApiProblem if it is no table, a column is missing, or a cell cannot be read
   */
  public static List<PlanDefinition.Wanted> read(String name, byte[] content, Language language)
      throws IOException {
    Path file = Files.createTempFile("demand", "table");
    try {
      Files.write(file, content);
      List<SheetRow> rows = PlainTable.rows(file, name);
      return rows.isEmpty()
          ? List.of()
          : new DemandTable(rows.get(0), language).demands(rows.subList(1, rows.size()));
    } catch (UnreadableTable unreadable) {
      throw new ApiProblem(ProblemKind.INVALID_PARAMETER, List.of(unreadable.problem()));
    } finally {
      Files.deleteIfExists(file);
    }
  }

  private List<PlanDefinition.Wanted> demands(List<SheetRow> rows) {
    for (Column needed : List.of(Column.HYBRID, Column.HARVEST, Column.TONNES)) {
      if (!columns.containsKey(needed)) {
        throw ApiProblem.refused(new PlanDetail.NoColumn(shown(needed)));
      }
    }
    List<PlanDefinition.Wanted> demands = new ArrayList<>();
    for (SheetRow row : rows) {
      Optional<Double> tonnes = number(row, Column.TONNES);
      if (tonnes.filter(one -> one > 0).isPresent()) {
        demands.add(
            new PlanDefinition.Wanted(
                row.cell(columns.get(Column.HYBRID)).shown(),
                number(row, Column.HARVEST)
                    .filter(year -> year == Math.rint(year))
                    .map(Double::intValue)
                    .orElseThrow(() -> unreadable(row, Column.HARVEST)),
                number(row, Column.LOW).orElse(null),
                tonnes.get(),
                number(row, Column.HIGH).orElse(null),
                number(row, Column.WEIGHT).orElse(null)));
      }
    }
    return demands;
  }

  /** Empty where nothing stands; what could be read in two ways is not guessed. */
  private Optional<Double> number(SheetRow row, Column column) {
    Integer at = columns.get(column);
    SheetCell cell = at == null ? new SheetCell.Empty() : row.cell(at);
    if (cell instanceof SheetCell.Number number) {
      return Optional.of(number.number().doubleValue());
    }
    if (cell instanceof SheetCell.Empty) {
      return Optional.empty();
    }
    if (cell instanceof SheetCell.Text text
        && TypedNumber.of(text.text(), language) instanceof TypedNumber.Plain plain) {
      return Optional.of(plain.value().doubleValue());
    }
    throw unreadable(row, column);
  }

  private ApiProblem unreadable(SheetRow row, Column column) {
    String shown = row.cell(columns.get(column)).shown();
    return ApiProblem.refused(
        new PlanDetail.UnreadableCell(row.number(), shown(column), Given.text(shown, false)));
  }

  private static String shown(Column column) {
    return column.name().toLowerCase(Locale.ROOT);
  }
}
