package org.kornspur.api.web.plan;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import java.util.Optional;
import java.util.TreeSet;
import java.util.function.Function;
import java.util.stream.IntStream;
import org.kornspur.api.query.plan.PlanDefinition;
import org.kornspur.api.security.login.FormFields;
import org.kornspur.api.text.LocalFormat;
import org.kornspur.processors.plan.Generation;
import org.kornspur.processors.plan.PlanInputs;
import org.kornspur.processors.plan.SeedDemand;
import org.kornspur.processors.plan.SeedInputs;

/**
 * The form of a plan as it is shown: a demand table with a row for each hybrid and a column for
 * each harvest, and what else a person may decide.
 *
 * @param version the version that is changed; 0 for a new plan
 * @param rows the demand table
 * @param groundHa most hectares of each harvest after the first, in order
 * @param inputs of each generation
 * @param pins areas decided on
 */
public record PlanForm(
    int version,
    String name,
    String reason,
    String firstYear,
    String lastYear,
    String level,
    String lowPercent,
    String highPercent,
    List<Integer> years,
    List<Row> rows,
    List<String> groundHa,
    List<InputRow> inputs,
    List<Pin> pins) {

  /** Low and high demand as parts of the expected one, where nothing else is said. */
  static final double LOW_PERCENT = 80;

  static final double HIGH_PERCENT = 120;
  private static final MathContext SHOWN = new MathContext(9);

  /** Expected tonnes of one hybrid by harvest, as text. */
  public record Row(String hybridId, List<String> tonnes) {}

  /** The inputs of one generation, in the order of {@link Input}. */
  public record InputRow(Generation generation, List<Cell> cells) {

    InputRow typedAgain(Iterator<String> values) {
      return new InputRow(
          generation,
          cells.stream().map(cell -> cell.typedAgain(next(values, cell.value()))).toList());
    }
  }

  /** One input as text, and whether it is the one of common practice. */
  public record Cell(Input input, String value, boolean isUsual) {

    Cell typedAgain(String typed) {
      return new Cell(input, typed, isUsual && typed.equals(value));
    }
  }

  /** An area decided on for the crop of a seed and year, as text. */
  public record Pin(String seedId, int year, String areaHa) {}

  /** The inputs that the form has, each with its unit. */
  public enum Input {
    YIELD_LOW(inputs -> inputs.yieldKgPerHa().least()),
    YIELD(inputs -> inputs.yieldKgPerHa().likely()),
    YIELD_HIGH(inputs -> inputs.yieldKgPerHa().greatest()),
    CLEANING_LOSS(inputs -> inputs.cleaningLoss() * 100),
    KERNEL_WEIGHT(SeedInputs::thousandKernelWeightG),
    GERMINATION(inputs -> inputs.germination() * 100),
    KERNELS(SeedInputs::viableKernelsPerM2),
    FEMALE_AREA(inputs -> inputs.femaleAreaShare() * 100),
    MINIMUM_STOCK(SeedInputs::minimumStockKg),
    INTERVAL(inputs -> (double) inputs.intervalYears()),
    CARRY_OVER_LOSS(inputs -> inputs.carryOverLoss() * 100);

    private final Function<SeedInputs, Double> value;

    Input(Function<SeedInputs, Double> value) {
      this.value = value;
    }

    double of(SeedInputs inputs) {
      return value.apply(inputs);
    }
  }

  /** An empty form for a plan from one harvest on. */
  static PlanForm empty(int firstYear, int lastYear, List<String> hybrids, LocalFormat local) {
    return of(
        0,
        "",
        "",
        new PlanDefinition(firstYear, lastYear, null, null, null, null, null, null, null),
        hybrids,
        local);
  }

  /** The form of a question. */
  static PlanForm of(
      int version,
      String name,
      String reason,
      PlanDefinition asked,
      List<String> hybrids,
      LocalFormat local) {
    List<Integer> years =
        IntStream.rangeClosed(asked.firstYear(), asked.lastYear()).boxed().toList();
    TreeSet<String> all = new TreeSet<>(hybrids);
    asked.demands().forEach(wanted -> all.add(wanted.hybridId()));
    return new PlanForm(
        version,
        name,
        reason,
        String.valueOf(asked.firstYear()),
        String.valueOf(asked.lastYear()),
        (asked.level() == null ? SeedDemand.Level.EXPECTED : asked.level()).name(),
        typed(LOW_PERCENT, local),
        typed(HIGH_PERCENT, local),
        years,
        all.stream().map(hybrid -> row(hybrid, years, asked, local)).toList(),
        years.stream().skip(1).map(year -> ground(year, asked, local)).toList(),
        inputs(asked.planInputs(), local),
        asked.pins().stream()
            .map(pin -> new Pin(pin.seedId(), pin.year(), typed(pin.areaHa(), local)))
            .toList());
  }

  /**
   * The same with what a person typed, so that a form that was not taken need not be typed anew.
   */
  PlanForm typedAgain(FormFields posted) {
    if (!posted.all("year").equals(years.stream().map(String::valueOf).toList())) {
      return this;
    }
    Iterator<String> tonnes = posted.all("tonnes").iterator();
    Iterator<String> ground = posted.all("groundHa").iterator();
    Iterator<String> values = posted.all("input").iterator();
    return new PlanForm(
        version,
        posted.first("name").orElse(name),
        posted.first("reason").orElse(reason),
        posted.first("firstYear").orElse(firstYear),
        posted.first("lastYear").orElse(lastYear),
        posted.first("level").orElse(level),
        posted.first("lowPercent").orElse(lowPercent),
        posted.first("highPercent").orElse(highPercent),
        years,
        posted.all("hybrid").stream()
            .map(id -> new Row(id, years.stream().map(year -> next(tonnes, "")).toList()))
            .toList(),
        groundHa.stream().map(cell -> next(ground, cell)).toList(),
        inputs.stream().map(row -> row.typedAgain(values)).toList(),
        PlanFields.pins(posted));
  }

  private static String next(Iterator<String> typed, String otherwise) {
    return typed.hasNext() ? typed.next() : otherwise;
  }

  private static Row row(
      String hybridId, List<Integer> years, PlanDefinition asked, LocalFormat local) {
    return new Row(
        hybridId,
        years.stream()
            .map(
                year ->
                    demand(asked, hybridId, year)
                        .map(wanted -> typed(wanted.expectedTonnes(), local))
                        .orElse(""))
            .toList());
  }

  /** What is wanted of one hybrid and harvest. */
  static Optional<PlanDefinition.Wanted> demand(PlanDefinition asked, String hybridId, int year) {
    return asked.demands().stream()
        .filter(wanted -> wanted.year() == year && wanted.hybridId().equals(hybridId))
        .findFirst();
  }

  private static String ground(int year, PlanDefinition asked, LocalFormat local) {
    return asked.limits().stream()
        .filter(limit -> limit.generation() == null && limit.year() == year)
        .findFirst()
        .map(limit -> typed(limit.mostHa(), local))
        .orElse("");
  }

  private static List<InputRow> inputs(PlanInputs inputs, LocalFormat local) {
    List<InputRow> rows = new ArrayList<>();
    for (Generation generation : Generation.values()) {
      SeedInputs usual = PlanInputs.commonPractice().byGeneration().get(generation);
      SeedInputs own = inputs.byGeneration().get(generation);
      List<Cell> cells = new ArrayList<>();
      for (Input input : Input.values()) {
        String value = typed(input.of(own), local);
        cells.add(new Cell(input, value, value.equals(typed(input.of(usual), local))));
      }
      rows.add(new InputRow(generation, cells));
    }
    return rows;
  }

  /** A number as a field of a form takes it. */
  private static String typed(double value, LocalFormat local) {
    return local.typed(BigDecimal.valueOf(value).round(SHOWN));
  }
}
