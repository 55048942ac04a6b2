package org.kornspur.processors.plan;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.kornspur.processors.dossier.Material;
import org.kornspur.processors.plan.FitChanceEstimator.Decided;
import org.kornspur.processors.plan.FitChanceEstimator.Group;

/** Worked by hand; counts are invented. */
class FitChanceEstimatorTest {
  private static final Group NORTH = new Group(Material.Kind.COMPONENT, "NORTH");
  private static final Group SOUTH = new Group(Material.Kind.COMPONENT, "SOUTH");

  /**
   * 19 of 20 are met in all: m = 19.5 / 21 = 0.92857. There are two groups, so s is 10. NORTH with
   * 9 of 10 has (10 · 0.92857 + 9) / (10 + 10) = 0.91429, SOUTH with 10 of 10 0.96429, a grower
   * without any result 0.92857.
   */
  @Test
  void aGroupIsDrawnToTheRateOfAll() {
    List<Decided> record = new ArrayList<>();
    add(record, NORTH, 9, 10);
    add(record, SOUTH, 10, 10);
    FitChanceEstimator rates = new FitChanceEstimator(record);
    assertThat(rates.chance(Set.of("ERGOT"), NORTH).chance()).isCloseTo(0.914286, within(1e-6));
    assertThat(rates.chance(Set.of("ERGOT"), SOUTH).chance()).isCloseTo(0.964286, within(1e-6));
    assertThat(rates.chance(Set.of("ERGOT"), new Group(Material.Kind.F1_SEED, "EAST")).chance())
        .isCloseTo(0.928571, within(1e-6));
  }

  /**
   * Three groups of 10 with 10, 10 and 4: p = 0.8, S = 10 · (0.04 + 0.04 + 0.16) = 2.4, S / (p (1 −
   * p)) = 15; N − Σn²/N − (g − 1) = 30 − 10 − 2 = 18; ρ = (15 − 2) / 18 = 0.7222, s = 0.3846, held
   * at 2. m = 24.5 / 31 = 0.79032; the group with 4 has (2 · 0.79032 + 4) / 12 = 0.46505.
   */
  @Test
  void groupsThatDifferMuchAreDrawnLittle() {
    List<Decided> record = new ArrayList<>();
    add(record, NORTH, 10, 10);
    add(record, SOUTH, 10, 10);
    Group hill = new Group(Material.Kind.COMPONENT, "HILL");
    add(record, hill, 4, 10);
    assertThat(new FitChanceEstimator(record).chance(Set.of("ERGOT"), hill).chance())
        .isCloseTo(0.465054, within(1e-6));
  }

  @Test
  void nothingOwedIsSureAndNothingKnownIsHalf() {
    FitChanceEstimator none = new FitChanceEstimator(List.of());
    assertThat(none.chance(Set.of(), NORTH).chance()).isEqualTo(1);
    FitChance unknown = none.chance(Set.of("ERGOT"), NORTH);
    assertThat(unknown.chance()).isEqualTo(0.5);
    assertThat(unknown.interval().lower()).isLessThan(0.3);
    assertThat(unknown.interval().upper()).isGreaterThan(0.7);
    assertThat(none.chance(Set.of("ERGOT", "PURITY"), NORTH).chance()).isEqualTo(0.25);
  }

  /**
   * Growers whose true chance is drawn from Beta(8, 2), so that s is 10, with twelve lots each: the
   * interval of a next one holds the true chance in nine of ten cases or so.
   */
  @Test
  void theIntervalHoldsTheTrueChanceAsOftenAsItSays() {
    Random random = new Random(7);
    int held = 0;
    int all = 0;
    for (int site = 0; site < 60; site++) {
      List<Decided> record = new ArrayList<>();
      double[] truth = new double[20];
      for (int grower = 0; grower < truth.length; grower++) {
        truth[grower] = beta(random, 8, 2);
        int met = 0;
        for (int lot = 0; lot < 12; lot++) {
          met += random.nextDouble() < truth[grower] ? 1 : 0;
        }
        add(record, new Group(Material.Kind.COMPONENT, "G" + grower), met, 12);
      }
      FitChanceEstimator rates = new FitChanceEstimator(record);
      for (int grower = 0; grower < truth.length; grower++) {
        Group group = new Group(Material.Kind.COMPONENT, "G" + grower);
        held += rates.chance(Set.of("ERGOT"), group).interval().contains(truth[grower]) ? 1 : 0;
        all++;
      }
    }
    assertThat((double) held / all).isBetween(0.85, 0.95);
  }

  /** The a-th smallest of a + b − 1 uniform numbers. */
  private static double beta(Random random, int a, int b) {
    double[] uniform = random.doubles(a + b - 1).sorted().toArray();
    return uniform[a - 1];
  }

  private static void add(List<Decided> record, Group group, int met, int all) {
    for (int lot = 0; lot < all; lot++) {
      record.add(new Decided("ERGOT", group, lot < met));
    }
  }
}
