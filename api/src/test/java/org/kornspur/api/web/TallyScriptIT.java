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
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.kornspur.api.text.Language;
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
            }""",
            Map.of("rows", plain(rows), "counts", plain(counts)));
    visitor.close();
    assertThat(decided).isEqualTo(expected);
  }

  /** What Playwright can pass: lists, not arrays of numbers. */
  private static Object plain(List<int[]> numbers) throws JsonProcessingException {
    ObjectMapper json = new ObjectMapper();
    return json.readValue(json.writeValueAsString(numbers), List.class);
  }
}
