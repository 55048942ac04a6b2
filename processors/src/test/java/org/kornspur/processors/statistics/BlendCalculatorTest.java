package org.kornspur.processors.statistics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.Scale;
import org.junit.jupiter.api.Test;
import org.kornspur.processors.statistics.BlendCalculator.Portion;
import org.kornspur.processors.statistics.BlendCalculator.Result;
import org.kornspur.processors.statistics.BlendCalculator.Stock;

/** Lots and numbers are invented. */
class BlendCalculatorTest {

  private static final Stock FEMALE = new Stock("F1", false, 10_000, 25, 0.90);
  private static final Stock POLLINATOR = new Stock("P1", true, 1_000, 40, 0.80);

  /** Two lots leave one mixture: masses in the ratio of share over viable kernels a kilogram. */
  @Test
  void twoLotsHaveTheClosedForm() {
    double share = 0.05;
    double pollinator = share / (0.80 / 40);
    double female = (1 - share) / (0.90 / 25);
    Result.Mixture mixture = mixture(List.of(FEMALE, POLLINATOR), 1000, share);
    assertThat(mass(mixture, "P1"))
        .isCloseTo(1000 * pollinator / (pollinator + female), within(1e-6));
    assertThat(mass(mixture, "F1")).isCloseTo(1000 * female / (pollinator + female), within(1e-6));
  }

  @Property(tries = 200)
  void everyMixtureMeetsMassShareAndStock(
      @ForAll @IntRange(min = 50, max = 3000) int massKg,
      @ForAll @DoubleRange(min = 0.02, max = 0.2) @Scale(4) double share,
      @ForAll @DoubleRange(min = 0.5, max = 1) @Scale(3) double germination,
      @ForAll @IntRange(min = 1, max = 300) int stockKg) {
    List<Stock> stocks =
        List.of(
            new Stock("F1", false, 700, 24, germination),
            new Stock("F2", false, 900, 28, 0.93),
            new Stock("P1", true, stockKg, 33, 0.88),
            new Stock("P2", true, 40, 37, germination));
    Result answer = BlendCalculator.mix(stocks, massKg, share);
    if (answer instanceof Result.Mixture mixture) {
      double viable = 0;
      double viablePollinator = 0;
      double mass = 0;
      for (Stock stock : stocks) {
        double kg = mass(mixture, stock.lotId());
        assertThat(kg).isBetween(0.0, stock.stockKg() + 1e-6);
        mass += kg;
        viable += kg * stock.viableKernelsPerKg();
        viablePollinator += stock.pollinator() ? kg * stock.viableKernelsPerKg() : 0;
      }
      assertThat(mass).isCloseTo(massKg, within(1e-5));
      assertThat(viablePollinator / viable).isCloseTo(share, within(1e-7));
    } else {
      assertThat(((Result.Infeasible) answer).mostKg()).isLessThan(massKg);
    }
  }

  /**
   * What is refused by the programme is refused by a search over a grid, and the other way round.
   */
  @Property(tries = 60)
  void refusesOnlyWhatAGridSearchCannotMix(
      @ForAll @IntRange(min = 100, max = 900) int massKg,
      @ForAll @DoubleRange(min = 0.03, max = 0.15) @Scale(3) double share) {
    List<Stock> stocks =
        List.of(
            new Stock("F1", false, 300, 24, 0.95),
            new Stock("F2", false, 300, 30, 0.80),
            new Stock("P1", true, 40, 35, 0.90));
    double gap = Double.POSITIVE_INFINITY;
    for (double first = 0; first <= 300; first += 0.5) {
      for (double pollinator = 0; pollinator <= 40; pollinator += 0.1) {
        double second = massKg - first - pollinator;
        if (second >= 0 && second <= 300) {
          double male = pollinator * stocks.get(2).viableKernelsPerKg();
          double all =
              male
                  + first * stocks.get(0).viableKernelsPerKg()
                  + second * stocks.get(1).viableKernelsPerKg();
          gap = Math.min(gap, Math.abs(male / all - share));
        }
      }
    }
    boolean mixed = BlendCalculator.mix(stocks, massKg, share) instanceof Result.Mixture;
    if (gap > 0.001) {
      assertThat(mixed).isFalse();
    } else if (gap < 0.00005) {
      assertThat(mixed || nearTheEdge(stocks, massKg, share)).isTrue();
    }
  }

  @Test
  void lotsInFrontAreUsedUpFirst() {
    List<Stock> stocks =
        List.of(
            new Stock("old", false, 200, 25, 0.9),
            new Stock("new", false, 5000, 25, 0.9),
            POLLINATOR);
    Result.Mixture mixture = mixture(stocks, 1000, 0.05);
    assertThat(mass(mixture, "old")).isCloseTo(200, within(1e-6));
    assertThat(mass(mixture, "new")).isGreaterThan(600);
  }

  @Test
  void aRefusalSaysHowMuchCouldBeMixed() {
    Stock little = new Stock("P1", true, 10, 40, 0.8);
    Result answer = BlendCalculator.mix(List.of(FEMALE, little), 1000, 0.05);
    assertThat(answer)
        .isInstanceOfSatisfying(
            Result.Infeasible.class,
            refused -> {
              double pollinator = 0.05 / (0.80 / 40);
              double female = 0.95 / (0.90 / 25);
              assertThat(refused.mostKg())
                  .isCloseTo(10 * (pollinator + female) / pollinator, within(1e-6));
            });
    assertThat(BlendCalculator.mix(List.of(FEMALE), 1000, 0.05))
        .isEqualTo(new Result.Infeasible(0));
  }

  private static boolean nearTheEdge(List<Stock> stocks, double massKg, double share) {
    return BlendCalculator.mix(stocks, massKg, share) instanceof Result.Infeasible refused
        && refused.mostKg() > massKg * 0.98;
  }

  private static Result.Mixture mixture(List<Stock> stocks, double massKg, double share) {
    Result answer = BlendCalculator.mix(stocks, massKg, share);
    assertThat(answer).isInstanceOf(Result.Mixture.class);
    return (Result.Mixture) answer;
  }

  private static double mass(Result.Mixture mixture, String lotId) {
    return mixture.portions().stream()
        .filter(portion -> portion.lotId().equals(lotId))
        .mapToDouble(Portion::massKg)
        .sum();
  }
}
