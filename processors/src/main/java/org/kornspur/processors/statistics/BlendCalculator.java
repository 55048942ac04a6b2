package org.kornspur.processors.statistics;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.apache.commons.math3.optim.MaxIter;
import org.apache.commons.math3.optim.PointValuePair;
import org.apache.commons.math3.optim.linear.LinearConstraint;
import org.apache.commons.math3.optim.linear.LinearConstraintSet;
import org.apache.commons.math3.optim.linear.LinearObjectiveFunction;
import org.apache.commons.math3.optim.linear.NoFeasibleSolutionException;
import org.apache.commons.math3.optim.linear.NonNegativeConstraint;
import org.apache.commons.math3.optim.linear.Relationship;
import org.apache.commons.math3.optim.linear.SimplexSolver;
import org.apache.commons.math3.optim.nonlinear.scalar.GoalType;

/**
 * Kilograms of each lot to mix for a target share of viable pollinator kernels.
 *
 * <p>A linear programme: the mass wanted and the share are met exactly, no lot gives more than its
 * stock, and lots that stand earlier in the list are used up first, so the caller's order (oldest
 * first, say) decides between mixtures that would all do. Where there is no such mixture, the
 * answer says how much could be mixed.
 */
public final class BlendCalculator {

  private static final MaxIter ITERATIONS = new MaxIter(10_000);
  private static final double SMALLEST_KG = 1e-6;

  private BlendCalculator() {}

  /**
   * A lot that may be used.
   *
   * @param lotId id of the lot
   * @param pollinator whether it is pollinator; female otherwise
   * @param stockKg mass at hand, kilograms
   * @param thousandKernelWeightG thousand-kernel weight, grams
   * @param germination germination as a share, above 0 and up to 1
   */
  public record Stock(
      String lotId,
      boolean pollinator,
      double stockKg,
      double thousandKernelWeightG,
      double germination) {

    /**
     * @throws IllegalArgumentException where a number is not above 0 or the germination above 1
     */
    public Stock {
      Preconditions.positive("stock of lot " + lotId + " in kilograms", stockKg);
      Preconditions.positive("thousand-kernel weight of lot " + lotId, thousandKernelWeightG);
      Preconditions.positive("germination of lot " + lotId, germination);
      Preconditions.share("germination of lot " + lotId, germination);
    }

    /** Viable kernels in a kilogram. */
    double viableKernelsPerKg() {
      return 1_000_000 / thousandKernelWeightG * germination;
    }
  }

  /** Kilograms of one lot. */
  public record Portion(String lotId, double massKg) {}

  /** What the calculator answers. */
  public sealed interface Result {

    /**
     * A mixture that meets the target.
     *
     * @param portions lots to mix, in the order given, without those that are not used
     */
    record Mixture(List<Portion> portions) implements Result {}

    /**
     * There is none.
     *
     * @param mostKg the most that could be mixed at this share; 0 where none
     */
    record Infeasible(double mostKg) implements Result {}
  }

  /**
   * Calculates a mixture.
   *
   * @param stocks lots that are fit and at hand, those to be used first in front
   * @param massKg mass wanted, kilograms
   * @param viableShare target share of viable pollinator kernels, between 0 and 1
   */
  public static Result mix(List<Stock> stocks, double massKg, double viableShare) {
    Preconditions.positive("mass wanted in kilograms", massKg);
    Preconditions.probability("target share", viableShare);
    for (boolean pollinator : new boolean[] {false, true}) {
      if (stocks.stream().noneMatch(stock -> stock.pollinator == pollinator)) {
        return new Result.Infeasible(0);
      }
    }
    return least(stocks, massKg, viableShare)
        .<Result>map(masses -> new Result.Mixture(portions(stocks, masses)))
        .orElseGet(() -> new Result.Infeasible(most(stocks, viableShare)));
  }

  /** Masses that meet mass and share with the least weight on lots that stand late in the list. */
  private static Optional<double[]> least(List<Stock> stocks, double massKg, double viableShare) {
    double[] rank = new double[stocks.size()];
    Arrays.setAll(rank, i -> i + 1);
    List<LinearConstraint> constraints = limits(stocks, viableShare);
    constraints.add(new LinearConstraint(ones(stocks.size()), Relationship.EQ, massKg));
    try {
      return Optional.of(solve(rank, GoalType.MINIMIZE, constraints).getPoint());
    } catch (NoFeasibleSolutionException e) {
      return Optional.empty();
    }
  }

  private static double most(List<Stock> stocks, double viableShare) {
    double[] most =
        solve(ones(stocks.size()), GoalType.MAXIMIZE, limits(stocks, viableShare)).getPoint();
    return Arrays.stream(most).sum();
  }

  /** Stock of each lot, and the share: viable pollinator kernels less their part of all, are 0. */
  private static List<LinearConstraint> limits(List<Stock> stocks, double viableShare) {
    List<LinearConstraint> constraints = new ArrayList<>();
    double[] balance = new double[stocks.size()];
    for (int i = 0; i < balance.length; i++) {
      Stock stock = stocks.get(i);
      double[] one = new double[balance.length];
      one[i] = 1;
      constraints.add(new LinearConstraint(one, Relationship.LEQ, stock.stockKg));
      // in millions, to keep the numbers of the programme of one size
      double millions = stock.viableKernelsPerKg() / 1e6;
      balance[i] = stock.pollinator ? millions * (1 - viableShare) : -millions * viableShare;
    }
    constraints.add(new LinearConstraint(balance, Relationship.EQ, 0));
    return constraints;
  }

  private static PointValuePair solve(
      double[] weights, GoalType goal, List<LinearConstraint> constraints) {
    return new SimplexSolver()
        .optimize(
            ITERATIONS,
            new LinearObjectiveFunction(weights, 0),
            new LinearConstraintSet(constraints),
            goal,
            new NonNegativeConstraint(true));
  }

  private static List<Portion> portions(List<Stock> stocks, double[] masses) {
    List<Portion> portions = new ArrayList<>();
    for (int i = 0; i < masses.length; i++) {
      if (masses[i] > SMALLEST_KG) {
        portions.add(new Portion(stocks.get(i).lotId, masses[i]));
      }
    }
    return List.copyOf(portions);
  }

  private static double[] ones(int length) {
    double[] ones = new double[length];
    Arrays.fill(ones, 1);
    return ones;
  }
}
