package org.kornspur.api.web.plan;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.TreeSet;
import java.util.function.Function;
import java.util.stream.IntStream;
import org.kornspur.api.query.plan.PlanQuestion;
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
 */
public record PlanForm(
    int version,
    String name,
    String reason,
    int firstYear,
    int lastYear,
    String level,
    String lowPercent,
    String highPercent,
    List<Integer> years,
    List<Row> rows,
    List<String> groundHa,
    List<InputRow> inputs) {

  /** Low and high demand as parts of the expected one, where nothing else is said. */
  static final double LOW_PERCENT = 80;

  static final double HIGH_PERCENT = 120;
  private static final MathContext SHOWN = new MathContext(9);

  /** Expected tonnes of one hybrid by harvest, as text. */
  public record Row(String hybridId, List<String> tonnes) {}

  /** The inputs of one generation, in the order of {@link Input}. */
  public record InputRow(Generation generation, List<Cell> cells) {}

  /** One input as text, and whether it is the one of common practice. */
  public record Cell(Input input, String value, boolean isUsual) {}

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
  static PlanForm empty(int firstYear, int lastYear, List<String> hybrids) {
    return of(
        0,
        "",
        "",
        new PlanQuestion(firstYear, lastYear, null, null, null, null, null, null),
        hybrids);
  }

  /** The form of a question. */
  static PlanForm of(
      int version, String name, String reason, PlanQuestion asked, List<String> hybrids) {
    List<Integer> years =
        IntStream.rangeClosed(asked.firstYear(), asked.lastYear()).boxed().toList();
    TreeSet<String> all = new TreeSet<>(hybrids);
    asked.demands().forEach(wanted -> all.add(wanted.hybridId()));
    return new PlanForm(
        version,
        name,
        reason,
        asked.firstYear(),
        asked.lastYear(),
        (asked.level() == null ? SeedDemand.Level.EXPECTED : asked.level()).name(),
        plain(LOW_PERCENT),
        plain(HIGH_PERCENT),
        years,
        all.stream().map(hybrid -> row(hybrid, years, asked)).toList(),
        years.stream().skip(1).map(year -> ground(year, asked)).toList(),
        inputs(asked.planInputs()));
  }

  private static Row row(String hybridId, List<Integer> years, PlanQuestion asked) {
    return new Row(
        hybridId,
        years.stream()
            .map(
                year ->
                    demand(asked, hybridId, year)
                        .map(wanted -> plain(wanted.expectedTonnes()))
                        .orElse(""))
            .toList());
  }

  /** What is wanted of one hybrid and harvest. */
  static Optional<PlanQuestion.Wanted> demand(PlanQuestion asked, String hybridId, int year) {
    return asked.demands().stream()
        .filter(wanted -> wanted.year() == year && wanted.hybridId().equals(hybridId))
        .findFirst();
  }

  private static String ground(int year, PlanQuestion asked) {
    return asked.limits().stream()
        .filter(limit -> limit.generation() == null && limit.year() == year)
        .findFirst()
        .map(limit -> plain(limit.mostHa()))
        .orElse("");
  }

  private static List<InputRow> inputs(PlanInputs inputs) {
    List<InputRow> rows = new ArrayList<>();
    for (Generation generation : Generation.values()) {
      SeedInputs usual = PlanInputs.commonPractice().byGeneration().get(generation);
      SeedInputs own = inputs.byGeneration().get(generation);
      List<Cell> cells = new ArrayList<>();
      for (Input input : Input.values()) {
        String value = plain(input.of(own));
        cells.add(new Cell(input, value, value.equals(plain(input.of(usual)))));
      }
      rows.add(new InputRow(generation, cells));
    }
    return rows;
  }

  /** A number as a field of a form takes it. */
  static String plain(double value) {
    BigDecimal rounded = BigDecimal.valueOf(value).round(SHOWN).stripTrailingZeros();
    return rounded.toPlainString();
  }
}
