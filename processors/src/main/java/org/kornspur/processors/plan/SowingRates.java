package org.kornspur.processors.plan;

import java.util.Map;
import java.util.TreeMap;

/**
 * Kilograms of each seed that are sown on a hectare.
 *
 * <p>Kernels on a square metre times 10,000 square metres, over the viable kernels in a kilogram.
 * In strips each parent is sown on its part of the ground. In a mixture female and pollinator stand
 * to each other as the breeder states it, by mass, by kernels or by viable kernels, and together
 * they have the viable kernels that are to be sown.
 */
final class SowingRates {
  private static final double M2_PER_HA = 10_000;

  private SowingRates() {}

  /** Of one step; empty where it is not grown. */
  static Map<String, Double> kgPerHa(
      MultiplicationChain.Step step, PlanInputs inputs, Seeds seeds) {
    SeedInputs own = inputs.of(step);
    double kernels = own.viableKernelsPerM2() * M2_PER_HA;
    Map<String, Double> rates = new TreeMap<>();
    if (step.grown() instanceof GrowingMethod.Alone) {
      rates.put(step.seedId(), kernels / own.viableKernelsPerKg());
    } else if (step.grown() instanceof GrowingMethod.Strips strips) {
      double female = own.femaleAreaShare();
      rates.put(
          strips.femaleId(), female * kernels / seeds.of(strips.femaleId()).viableKernelsPerKg());
      rates.merge(
          strips.pollenId(),
          (1 - female) * kernels / seeds.of(strips.pollenId()).viableKernelsPerKg(),
          Double::sum);
    } else if (step.grown() instanceof GrowingMethod.Mixture mixture) {
      SeedInputs female = seeds.of(mixture.femaleId());
      SeedInputs pollen = seeds.of(mixture.pollenId());
      double femaleKg = (1 - mixture.share()) * kgPerUnit(mixture, female);
      double pollenKg = mixture.share() * kgPerUnit(mixture, pollen);
      double viable =
          femaleKg * female.viableKernelsPerKg() + pollenKg * pollen.viableKernelsPerKg();
      rates.put(mixture.femaleId(), femaleKg * kernels / viable);
      rates.merge(mixture.pollenId(), pollenKg * kernels / viable, Double::sum);
    }
    return rates;
  }

  /** The inputs of seed by its id. */
  interface Seeds {
    SeedInputs of(String seedId);
  }

  /** Kilograms in a unit of what the share is a share of. */
  private static double kgPerUnit(GrowingMethod.Mixture mixture, SeedInputs seed) {
    return switch (mixture.basis()) {
      case MASS -> 1;
      case KERNELS -> seed.thousandKernelWeightG() / 1_000_000;
      case VIABLE_KERNELS -> 1 / seed.viableKernelsPerKg();
    };
  }
}
