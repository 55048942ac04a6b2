package org.kornspur.api.web;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.Page;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.kornspur.api.text.Language;
import org.kornspur.api.text.TypedNumber;
import org.kornspur.processors.advice.CountTable;
import org.kornspur.processors.advice.InspectionAdvice.Terms;
import org.kornspur.processors.statistics.SequentialPlan;

/** The phone's reading of the table, in the browser, against the sequential plan in Java. */
class TallyScriptIT extends BrowserTest {
  private static final int WALKS = 40;

  /** Random walks at, below and above the limit, each to the end of the plan. */
  @ParameterizedTest
  @CsvSource({"0.02, 2", "0.001, 3", "0.001, 5", "0.05, 2"})
  void thePhoneDecidesAsThePlanDoes(double acceptable, double multiple)
      throws JsonProcessingException {
    Terms terms = new Terms(0.05, 0.05, multiple);
    SequentialPlan plan =
        SequentialPlan.keepingRisks(acceptable, acceptable * multiple, terms.alpha(), terms.beta());
    List<int[]> rows =
        CountTable.of(plan, terms).stream()
            .map(row -> new int[] {row.units(), row.acceptAtMost(), row.rejectAtLeast()})
            .toList();
    Random random = new Random(20_260_603L);
    List<int[]> counts = new ArrayList<>();
    List<String> expected = new ArrayList<>();
    for (int walk = 0; walk < WALKS; walk++) {
      double share = acceptable * (0.2 + random.nextDouble() * multiple * 1.5);
      int bad = 0;
      for (int units = 1; units <= plan.mostUnits(); units++) {
        bad += random.nextDouble() < share ? 1 : 0;
        if (units == plan.mostUnits() || random.nextInt(20) == 0) {
          counts.add(new int[] {units, bad});
          expected.add(plan.after(units, bad).name());
        }
      }
    }
    assertThat(expected).contains("ACCEPT", "REJECT", "GO_ON");
    BrowserContext visitor = chromium.visitor(Screen.NARROW, Language.ENGLISH);
    Page page = visitor.newPage();
    page.navigate(root + "login");
    Object decided =
        page.evaluate(
            """
            async ({rows, counts}) => {
              const {decide} = await import('/assets/field-book/plan.js');
              return counts.map(([units, bad]) => decide(rows, units, bad));
            }\
            """,
            Map.of("rows", plain(rows), "counts", plain(counts)));
    visitor.close();
    assertThat(decided).isEqualTo(expected);
  }

  /** Held against the reading in Java, so that a number is the same with and without a script. */
  @ParameterizedTest
  @EnumSource
  void thePhoneReadsNumbersAsTheServerDoes(Language language) {
    List<String> typed =
        List.of("1250", "1.250", "1,250", "12.5", "12,5", "0.125", "1250.125", "1.250,5", "-1.000");
    List<String> expected = new ArrayList<>();
    typed.forEach(text -> expected.add(shown(TypedNumber.of(text, language))));
    typed.forEach(
        text -> {
          String whole = shown(TypedNumber.whole(text, language));
          expected.add(whole.contains(".") ? "not whole" : whole);
        });
    Page page = chromium.visitor(Screen.NARROW, language).newPage();
    page.navigate(root + "login");
    Object read =
        page.evaluate(
            """
            async (typed) => {
              const {read} = await import('/assets/field-book/fact.js');
              const texts = {
                notANumber: 'none',
                notWhole: 'not whole',
                ambiguousNumber: '{grouped} or {decimal}',
                thousandsParted: '{grouped}',
              };
              const one = (kind, text) => {
                const form = document.createElement('form');
                const field = document.createElement('input');
                field.name = 'number';
                field.dataset.kind = kind;
                field.value = text;
                form.append(field);
                const {fact, faults} = read(form, 'p', texts);
                return faults.length > 0 ? faults[0].text : String(fact.number);
              };
              return [
                ...typed.map((text) => one('DECIMAL', text)),
                ...typed.map((text) => one('WHOLE', text)),
              ].map((text) => text.split(' or ')[0]);
            }\
            """,
            typed);
    page.context().close();
    assertThat(read).isEqualTo(expected);
    assertThat(expected).contains("none", "1.25", "1250");
  }

  private static String shown(TypedNumber typed) {
    if (typed instanceof TypedNumber.Plain number) {
      return number.value().stripTrailingZeros().toPlainString();
    }
    return typed instanceof TypedNumber.Ambiguous two ? two.grouped() : "none";
  }

  /** Whatever earlier visits found, and however clean this one is. */
  @Test
  void nobodyIsToldToStopBeforeTheVisitIsASample() throws JsonProcessingException {
    Terms terms = new Terms(0.05, 0.05, 2);
    SequentialPlan plan = SequentialPlan.keepingRisks(0.02, 0.04, terms.alpha(), terms.beta());
    List<int[]> rows =
        CountTable.of(plan, terms).stream()
            .map(row -> new int[] {row.units(), row.acceptAtMost(), row.rejectAtLeast()})
            .toList();
    int enough = plan.mostUnits();
    BrowserContext visitor = chromium.visitor(Screen.NARROW, Language.ENGLISH);
    Page page = visitor.newPage();
    page.navigate(root + "login");
    Object told =
        page.evaluate(
            """
            async ({rows, cases}) => {
              const {told} = await import('/assets/field-book/plan.js');
              return cases.map(([least, units, bad, today]) => {
                const {decision, mayStop} = told(rows, least, units, bad, today);
                return `${decision} ${mayStop}`;
              });
            }\
            """,
            Map.of(
                "rows",
                plain(rows),
                "cases",
                plain(
                    List.of(
                        new int[] {150, enough, 0, 0},
                        new int[] {150, enough, 0, 149},
                        new int[] {150, enough, 0, 150},
                        new int[] {150, enough, enough, 0},
                        new int[] {150, enough, enough, 149},
                        new int[] {150, enough, enough, 150},
                        new int[] {0, 1, 0, 1}))));
    visitor.close();
    assertThat(told)
        .isEqualTo(
            List.of(
                "GO_ON false",
                "GO_ON false",
                "ACCEPT true",
                "REJECT false",
                "REJECT false",
                "REJECT true",
                "GO_ON false"));
  }

  /** What Playwright can pass: lists, not arrays of numbers. */
  private static Object plain(List<int[]> numbers) throws JsonProcessingException {
    ObjectMapper json = new ObjectMapper();
    return json.readValue(json.writeValueAsString(numbers), List.class);
  }
}
