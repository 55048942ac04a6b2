package org.kornspur.api.web.plan;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.kornspur.api.problem.ParameterProblem;
import org.kornspur.api.query.plan.FieldChoices;
import org.kornspur.api.query.plan.PlanDefinition;
import org.kornspur.api.security.login.FormFields;
import org.kornspur.api.text.Language;
import org.kornspur.api.text.LocalFormat;
import org.kornspur.ingest.intake.Problem;
import org.kornspur.processors.ground.GeoPosition;

/**
 * The form of the fields of one harvest. Crops of other harvests stay as they were. A field is
 * named by its grower and its own name, as it stands in the list that is offered.
 */
final class FieldsForm {
  /** Stands between the grower and the field; no id has it. */
  static final String BETWEEN = " / ";

  private final FormFields form;
  private final FormNumbers numbers;

  private FieldsForm(FormFields form, Language language) {
    this.form = form;
    this.numbers = new FormNumbers(language);
  }

  /**
   * The question with what the form decides.
   *
   * @param year of harvest that the form is of
   * @param language by whose customs its numbers are written
   * @throws org.kornspur.api.problem.ApiProblem if a number or place cannot be read
   */
  static PlanDefinition read(FormFields form, PlanDefinition before, int year, Language language) {
    return before.withFields(new FieldsForm(form, language).choices(before.fields(), year));
  }

  private FieldChoices choices(FieldChoices before, int year) {
    List<FieldChoices.Placed> placed =
        new ArrayList<>(
            Stream.concat(
                    before.placed().stream().filter(one -> one.year() != year),
                    typed(year).stream())
                .toList());
    FieldChoices choices =
        new FieldChoices(
            placed,
            growers(),
            form.first("rulebook").map(String::strip).filter(id -> !id.isEmpty()).orElse(null),
            store());
    numbers.check();
    return choices;
  }

  private List<FieldChoices.Placed> typed(int year) {
    List<String> seeds = form.all("placedSeed");
    List<String> fields = form.all("placedField");
    List<String> areas = form.all("placedHa");
    List<FieldChoices.Placed> typed = new ArrayList<>();
    for (int i = 0; i < Math.min(seeds.size(), Math.min(fields.size(), areas.size())); i++) {
      String field = fields.get(i).strip();
      if (seeds.get(i).isBlank() || field.isEmpty()) {
        continue;
      }
      Optional<Double> areaHa = numbers.decimal("placedHa " + seeds.get(i), areas.get(i));
      int at = field.indexOf(BETWEEN);
      typed.add(
          new FieldChoices.Placed(
              seeds.get(i).strip(),
              year,
              at < 0 ? "" : field.substring(0, at),
              at < 0 ? field : field.substring(at + BETWEEN.length()),
              areaHa.orElse(null)));
    }
    return typed;
  }

  private List<FieldChoices.Grower> growers() {
    List<String> ids = form.all("grower");
    List<String> most = form.all("growerHa");
    List<FieldChoices.Grower> growers = new ArrayList<>();
    for (int i = 0; i < Math.min(ids.size(), most.size()); i++) {
      String id = ids.get(i);
      numbers
          .decimal("growerHa " + id, most.get(i))
          .ifPresent(ha -> growers.add(new FieldChoices.Grower(id, ha)));
    }
    return growers;
  }

  private GeoPosition store() {
    Optional<Double> lon = coordinate("storeLon", 180);
    Optional<Double> lat = coordinate("storeLat", 90);
    return lon.isPresent() && lat.isPresent() ? new GeoPosition(lon.get(), lat.get()) : null;
  }

  private Optional<Double> coordinate(String field, int most) {
    Optional<Double> degrees = numbers.decimal(field, form.first(field).orElse(""));
    degrees
        .filter(one -> Math.abs(one) > most)
        .ifPresent(
            one ->
                numbers.note(
                    Problem.of(field, one, new ParameterProblem.WholeNumber(-most, most))));
    return degrees;
  }

  /** A number as a field of the form takes it. */
  static String typed(double value, LocalFormat local) {
    return local.typed(BigDecimal.valueOf(Math.rint(value * 100) / 100).stripTrailingZeros());
  }
}
