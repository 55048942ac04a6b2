package org.kornspur.api.web.plan;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.regex.Pattern;
import org.kornspur.api.command.plan.PlanRequest;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.query.plan.PlanDefinition;
import org.kornspur.api.security.login.FormFields;
import org.kornspur.api.text.Language;
import org.kornspur.processors.plan.Generation;
import org.kornspur.processors.plan.SeedDemand;

/**
 * Reads the form of a plan. Fields that stand in a table have one name each and come row by row, as
 * browsers send them. What the form does not show stays as it was.
 */
final class PlanFields {
  private static final Pattern WHOLE = Pattern.compile("\\d{1,9}");

  private final FormFields form;
  private final Optional<PlanDefinition> before;
  private final FormNumbers numbers;

  private PlanFields(FormFields form, Optional<PlanDefinition> before, Language language) {
    this.form = form;
    this.before = before;
    this.numbers = new FormNumbers(language);
  }

  /**
   * The request of a form.
   *
   * @param before what the form was made of
   * @param language by whose customs its numbers are written
   * @throws ApiProblem if a number is none, or can be read in two ways
   */
  static PlanRequest read(FormFields form, Optional<PlanDefinition> before, Language language) {
    return new PlanFields(form, before, language).request();
  }

  private PlanRequest request() {
    Integer first = numbers.whole("firstYear", text("firstYear")).orElse(null);
    Integer last = numbers.whole("lastYear", text("lastYear")).orElse(null);
    PlanDefinition question =
        new PlanDefinition(
            first,
            last,
            form.first("level")
                .filter(PlanFields::isLevel)
                .map(SeedDemand.Level::valueOf)
                .orElse(null),
            demands(first, last),
            limits(first, last),
            pins(first, last),
            form.all("leaveOut"),
            inputs(),
            before.map(PlanDefinition::fields).orElse(null));
    numbers.check();
    return new PlanRequest(
        form.first("name").orElse(""),
        form.first("reason").orElse(""),
        numbers.whole("basedOnVersion", text("basedOnVersion")).orElse(null),
        question);
  }

  private static boolean isLevel(String name) {
    for (SeedDemand.Level level : SeedDemand.Level.values()) {
      if (level.name().equals(name)) {
        return true;
      }
    }
    return false;
  }

  private List<PlanDefinition.Wanted> demands(Integer first, Integer last) {
    double low =
        numbers.decimal("lowPercent", text("lowPercent")).orElse(PlanForm.LOW_PERCENT) / 100;
    double high =
        numbers.decimal("highPercent", text("highPercent")).orElse(PlanForm.HIGH_PERCENT) / 100;
    List<String> years = form.all("year");
    List<String> tonnes = form.all("tonnes");
    List<PlanDefinition.Wanted> wanted = new ArrayList<>();
    int at = 0;
    for (String hybrid : form.all("hybrid")) {
      for (String year : years) {
        String cell = at < tonnes.size() ? tonnes.get(at++) : "";
        Optional<Double> expected = numbers.decimal("tonnes " + hybrid + " " + year, cell);
        Optional<Double> harvest = numbers.decimal("year", year);
        if (expected.filter(one -> one > 0).isPresent() && harvest.isPresent()) {
          int in = harvest.get().intValue();
          if (isWithin(in, first, last)) {
            wanted.add(wanted(hybrid, in, expected.get(), low, high));
          }
        }
      }
    }
    return wanted;
  }

  private static boolean isWithin(int year, Integer first, Integer last) {
    return first == null || last == null || (year >= first && year <= last);
  }

  private PlanDefinition.Wanted wanted(
      String hybrid, int year, double expected, double low, double high) {
    Optional<PlanDefinition.Wanted> was =
        before.flatMap(asked -> PlanForm.demand(asked, hybrid, year));
    if (was.filter(one -> one.expectedTonnes() == expected).isPresent()) {
      return was.get();
    }
    return new PlanDefinition.Wanted(
        hybrid,
        year,
        expected * low,
        expected,
        expected * high,
        was.map(PlanDefinition.Wanted::weight).orElse(null));
  }

  private List<PlanDefinition.Ground> limits(Integer first, Integer last) {
    List<PlanDefinition.Ground> limits = new ArrayList<>();
    before.stream()
        .flatMap(asked -> asked.limits().stream())
        .filter(limit -> limit.generation() != null && isWithin(limit.year(), first, last))
        .forEach(limits::add);
    List<String> years = form.all("groundYear");
    List<String> most = form.all("groundHa");
    for (int i = 0; i < Math.min(years.size(), most.size()); i++) {
      Optional<Double> year = numbers.decimal("groundYear", years.get(i));
      Optional<Double> ha = numbers.decimal("groundHa " + years.get(i), most.get(i));
      if (year.isPresent() && ha.isPresent() && isWithin(year.get().intValue(), first, last)) {
        limits.add(new PlanDefinition.Ground(null, year.get().intValue(), ha.get()));
      }
    }
    return limits;
  }

  /** The areas that a form decides on, as they were typed. */
  static List<PlanForm.Pin> pins(FormFields form) {
    List<String> seeds = form.all("pinSeed");
    List<String> years = form.all("pinYear");
    List<String> areas = form.all("pinHa");
    List<PlanForm.Pin> pins = new ArrayList<>();
    for (int i = 0; i < Math.min(seeds.size(), Math.min(years.size(), areas.size())); i++) {
      if (WHOLE.matcher(years.get(i)).matches()) {
        pins.add(new PlanForm.Pin(seeds.get(i), Integer.parseInt(years.get(i)), areas.get(i)));
      }
    }
    return pins;
  }

  private List<PlanDefinition.Pin> pins(Integer first, Integer last) {
    List<PlanDefinition.Pin> pins = new ArrayList<>();
    for (PlanForm.Pin pin : pins(form)) {
      numbers
          .decimal("pinHa " + pin.seedId() + " " + pin.year(), pin.areaHa())
          .filter(ha -> isWithin(pin.year(), first, last))
          .ifPresent(ha -> pins.add(new PlanDefinition.Pin(pin.seedId(), pin.year(), ha)));
    }
    return pins;
  }

  /** Those of single seed as they were; of generations those that the form has. */
  private List<PlanDefinition.Inputs> inputs() {
    List<PlanDefinition.Inputs> inputs = new ArrayList<>();
    List<String> cells = form.all("input");
    int width = PlanForm.Input.values().length;
    for (Generation generation : Generation.values()) {
      int from = generation.ordinal() * width;
      if (cells.size() < from + width) {
        break;
      }
      List<Double> values = new ArrayList<>();
      for (PlanForm.Input input : PlanForm.Input.values()) {
        String field = "input " + generation + " " + input;
        values.add(numbers.decimal(field, cells.get(from + input.ordinal())).orElse(null));
      }
      inputs.add(inputs(generation, values));
    }
    before.stream()
        .flatMap(asked -> asked.inputs().stream())
        .filter(one -> one.seedId() != null)
        .forEach(inputs::add);
    return inputs;
  }

  private static PlanDefinition.Inputs inputs(Generation generation, List<Double> values) {
    Double interval = values.get(PlanForm.Input.INTERVAL.ordinal());
    return new PlanDefinition.Inputs(
        generation,
        null,
        values.get(PlanForm.Input.YIELD_LOW.ordinal()),
        values.get(PlanForm.Input.YIELD.ordinal()),
        values.get(PlanForm.Input.YIELD_HIGH.ordinal()),
        values.get(PlanForm.Input.CLEANING_LOSS.ordinal()),
        values.get(PlanForm.Input.KERNEL_WEIGHT.ordinal()),
        values.get(PlanForm.Input.GERMINATION.ordinal()),
        values.get(PlanForm.Input.KERNELS.ordinal()),
        values.get(PlanForm.Input.FEMALE_AREA.ordinal()),
        values.get(PlanForm.Input.MINIMUM_STOCK.ordinal()),
        interval == null ? null : interval.intValue(),
        values.get(PlanForm.Input.CARRY_OVER_LOSS.ordinal()));
  }

  private String text(String field) {
    return form.first(field).orElse("");
  }
}
