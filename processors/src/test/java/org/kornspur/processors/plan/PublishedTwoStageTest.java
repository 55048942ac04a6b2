package org.kornspur.processors.plan;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.ojalgo.optimisation.Expression;
import org.ojalgo.optimisation.ExpressionsBasedModel;
import org.ojalgo.optimisation.Optimisation;
import org.ojalgo.optimisation.Variable;

/**
 * The published example of a plan in two stages under uncertain yields, by the solver that plans
 * here: what to sow is decided before the yields are known, what to buy and sell after.
 *
 * <p>Source: J. R. Birge and F. Louveaux, Introduction to Stochastic Programming, section 1.1, the
 * farmer's problem: 170, 80 and 250 acres of wheat, corn and sugar beets, and a profit of $108,390.
 * Data and results as courses restate them; the book itself could not be read.
 */
class PublishedTwoStageTest {
  private static final double[] YIELDS = {0.8, 1, 1.2};

  @Test
  void theFarmersProblemHasItsPublishedOptimum() {
    ExpressionsBasedModel model = new ExpressionsBasedModel();
    Variable wheat = model.addVariable("wheat").lower(0).weight(150);
    Variable corn = model.addVariable("corn").lower(0).weight(230);
    Variable beets = model.addVariable("beets").lower(0).weight(260);
    model.addExpression("land").upper(500).set(wheat, 1).set(corn, 1).set(beets, 1);
    double chance = 1.0 / YIELDS.length;
    for (double yield : YIELDS) {
      feed(model, wheat, 2.5 * yield, 200, 238 * chance, 170 * chance);
      feed(model, corn, 3 * yield, 240, 210 * chance, 150 * chance);
      Variable inQuota = sold(model, 36 * chance).upper(6000);
      Variable beyond = sold(model, 10 * chance);
      model
          .addExpression("beets " + yield)
          .upper(0)
          .set(inQuota, 1)
          .set(beyond, 1)
          .set(beets, -20 * yield);
    }
    Optimisation.Result result = model.minimise();
    assertThat(result.getState().isOptimal()).isTrue();
    assertThat(-result.getValue()).isCloseTo(108_390, within(0.5));
    assertThat(wheat.getValue().doubleValue()).isCloseTo(170, within(1e-3));
    assertThat(corn.getValue().doubleValue()).isCloseTo(80, within(1e-3));
    assertThat(beets.getValue().doubleValue()).isCloseTo(250, within(1e-3));
  }

  private static void feed(
      ExpressionsBasedModel model,
      Variable sown,
      double yield,
      double needed,
      double price,
      double sells) {
    Variable bought = model.addVariable().lower(0).weight(price);
    Expression feed = model.addExpression().lower(needed);
    feed.set(sown, yield).set(bought, 1).set(sold(model, sells), -1);
  }

  private static Variable sold(ExpressionsBasedModel model, double price) {
    return model.addVariable().lower(0).weight(-price);
  }
}
