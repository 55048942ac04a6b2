package org.kornspur.api.web.plan;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.kornspur.api.command.plan.PlanRequest;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.query.plan.FieldChoices;
import org.kornspur.api.query.plan.PlanDefinition;
import org.kornspur.api.security.login.FormFields;
import org.kornspur.api.text.Language;
import org.kornspur.api.text.LocalFormat;
import org.kornspur.processors.plan.Generation;
import org.kornspur.processors.plan.PlanInputs;
import org.kornspur.processors.plan.SeedDemand;

/** The form of a plan, as a browser sends it. */
class PlanFieldsTest {
  private static final PlanDefinition ASKED =
      new PlanDefinition(
          2026,
          2027,
          SeedDemand.Level.HIGH,
          List.of(
              new PlanDefinition.Wanted("H 1", 2027, 60.0, 100.0, 110.0, 3.0),
              new PlanDefinition.Wanted("H&2", 2026, 5.0, 7.0, 9.0, null)),
          List.of(
              new PlanDefinition.Ground(null, 2027, 12.5),
              new PlanDefinition.Ground(Generation.STERILE_LINE, 2027, 1.0)),
          List.of(new PlanDefinition.Pin("SC-1", 2027, 2.0)),
          List.of("L1"),
          List.of(
              new PlanDefinition.Inputs(
                  Generation.F1_SEED,
                  "H 1",
                  4000.0,
                  5000.0,
                  6000.0,
                  null,
                  null,
                  null,
                  null,
                  null,
                  null,
                  null,
                  null)),
          new FieldChoices(
              List.of(new FieldChoices.Placed("SC-1", 2027, "E1", "West", 2.0)),
              List.of(new FieldChoices.Grower("E1", 40.0)),
              "DE",
              null));

  @ParameterizedTest
  @EnumSource(Language.class)
  void whatIsShownAndSentBackIsTheSame(Language language) {
    PlanDefinition back =
        PlanFields.read(sent(ASKED, language), Optional.of(ASKED), language).question();
    assertThat(back.demands()).containsExactlyInAnyOrderElementsOf(ASKED.demands());
    assertThat(back.limits()).containsExactlyInAnyOrderElementsOf(ASKED.limits());
    assertThat(back.pins()).isEqualTo(ASKED.pins());
    assertThat(back.leftOutLots()).isEqualTo(ASKED.leftOutLots());
    assertThat(back.fields()).as("the form does not show them").isEqualTo(ASKED.fields());
    assertThat(back.level()).isEqualTo(ASKED.level());
    assertThat(back.planInputs()).isEqualTo(ASKED.planInputs());
    assertThat(back.planInputs().byGeneration())
        .isEqualTo(PlanInputs.commonPractice().byGeneration());
  }

  @Test
  void aGermanFormHasDecimalCommas() {
    assertThat(PlanForm.of(1, "Plan", "", ASKED, List.of(), local(Language.GERMAN)).groundHa())
        .containsExactly("12,5");
  }

  /** The weight stays; low and high follow the new quantity by the parts given in the form. */
  @ParameterizedTest
  @CsvSource({"ENGLISH, 200.5", "GERMAN, '200,5'", "GERMAN, 200.5"})
  void anotherQuantityTakesLowAndHighFromTheForm(Language language, String typed) {
    FormFields form = with(sent(ASKED, language), "tonnes=100", "tonnes=" + encoded(typed));
    PlanRequest request = PlanFields.read(form, Optional.of(ASKED), language);
    assertThat(request.question().demands())
        .contains(new PlanDefinition.Wanted("H 1", 2027, 160.4, 200.5, 240.6, 3.0));
  }

  @ParameterizedTest
  @CsvSource({
    "ENGLISH, many, 'tonnes=100', 'tonnes H 1 2027'",
    "GERMAN, 1.250, 'tonnes=100', 'tonnes H 1 2027'",
    "ENGLISH, '1,250', 'tonnes=100', 'tonnes H 1 2027'",
    "GERMAN, 1.250, 'pinHa=2', 'pinHa SC-1 2027'",
    "ENGLISH, 2026.5, 'firstYear=2026', firstYear"
  })
  void whatIsNoNumberOrTwoIsNamedAndStaysInTheForm(
      Language language, String typed, String field, String named) {
    String name = field.substring(0, field.indexOf('='));
    FormFields form = with(sent(ASKED, language), field, name + "=" + encoded(typed));
    assertThatThrownBy(() -> PlanFields.read(form, Optional.empty(), language))
        .isInstanceOfSatisfying(
            ApiProblem.class,
            refused ->
                assertThat(refused.document().problems())
                    .singleElement()
                    .satisfies(one -> assertThat(one.field()).isEqualTo(named)));
    PlanForm again =
        PlanForm.of(1, "Plan", "", ASKED, List.of("H 1"), local(language)).typedAgain(form);
    assertThat(again.toString()).contains(typed);
    assertThat(sent(again, ASKED.leftOutLots())).isEqualTo(form);
  }

  private static FormFields sent(PlanDefinition asked, Language language) {
    return sent(
        PlanForm.of(1, "Plan", "why", asked, List.of("H 1"), local(language)), asked.leftOutLots());
  }

  private static LocalFormat local(Language language) {
    return new LocalFormat(language, ZoneOffset.UTC);
  }

  /** As the template writes the fields, row by row. */
  private static FormFields sent(PlanForm form, List<String> leftOut) {
    Stream<String> fields =
        Stream.of(
                Stream.of(
                    "basedOnVersion=1",
                    "name=Plan",
                    "reason=" + form.reason(),
                    "firstYear=" + encoded(form.firstYear()),
                    "lastYear=" + form.lastYear(),
                    "level=" + form.level(),
                    "lowPercent=" + encoded(form.lowPercent()),
                    "highPercent=" + form.highPercent()),
                form.pins().stream()
                    .flatMap(
                        pin ->
                            Stream.of(
                                "pinSeed=" + pin.seedId(),
                                "pinYear=" + pin.year(),
                                "pinHa=" + encoded(pin.areaHa()))),
                leftOut.stream().map(lot -> "leaveOut=" + lot),
                form.years().stream().map(year -> "year=" + year),
                form.rows().stream()
                    .flatMap(
                        row ->
                            Stream.concat(
                                Stream.of("hybrid=" + encoded(row.hybridId())),
                                row.tonnes().stream().map(cell -> "tonnes=" + encoded(cell)))),
                form.years().stream().skip(1).map(year -> "groundYear=" + year),
                form.groundHa().stream().map(cell -> "groundHa=" + encoded(cell)),
                form.inputs().stream()
                    .flatMap(row -> row.cells().stream())
                    .map(cell -> "input=" + encoded(cell.value())))
            .flatMap(all -> all);
    return new FormFields(fields.collect(Collectors.joining("&")));
  }

  private static FormFields with(FormFields form, String field, String other) {
    assertThat(form.body()).contains("&" + field + "&");
    return new FormFields(form.body().replaceFirst("&" + field + "&", "&" + other + "&"));
  }

  private static String encoded(String text) {
    return URLEncoder.encode(text, StandardCharsets.UTF_8);
  }
}
