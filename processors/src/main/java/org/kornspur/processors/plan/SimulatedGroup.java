package org.kornspur.processors.plan;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.TreeMap;
import org.kornspur.processors.plan.PlanSimulation.Chance;
import org.kornspur.processors.plan.PlanSimulation.LotRisk;

/** Simulates the seed of one connected group: all that is grown from the same seed. */
final class SimulatedGroup {
  /** Part of a demand that may be missing for it to count as met. */
  private static final double MET = 0.999;

  private final int firstYear;
  private final int years;
  private final Map<String, Integer> place = new HashMap<>();
  private final int runs;
  private final long seed;
  private final List<GrownSeed> seeds;
  private final List<PlanTask.Wanted> wanted;
  private final double[][] areaHa;
  private final double[][] wantedKg;
  private final int[][] parents;
  private final double[][] rates;
  private final double[] sureKg;
  private final List<String> waiting;
  private final double[] chance;
  private final double[][] waitingKg;

  SimulatedGroup(PlanTask task, SeedPlan plan, List<GrownSeed> seeds, int runs, long seed) {
    this.firstYear = task.firstYear();
    this.years = task.years();
    this.runs = runs;
    this.seed = seed;
    this.seeds = seeds;
    seeds.forEach(one -> place.put(one.seedId(), place.size()));
    this.wanted = task.demands().stream().filter(one -> place.containsKey(one.hybridId())).toList();
    this.areaHa = new double[seeds.size()][years];
    this.wantedKg = new double[seeds.size()][years];
    for (SeedPlan.Crop crop : plan.crops()) {
      if (place.containsKey(crop.seedId())) {
        areaHa[place.get(crop.seedId())][crop.year() - task.firstYear()] = crop.areaHa();
      }
    }
    wanted.forEach(
        one -> wantedKg[place.get(one.hybridId())][one.year() - task.firstYear()] = one.kg());
    this.parents = new int[seeds.size()][];
    this.rates = new double[seeds.size()][];
    for (int s = 0; s < seeds.size(); s++) {
      Map<String, Double> sown = new TreeMap<>(seeds.get(s).sownKgPerHa());
      parents[s] = sown.keySet().stream().mapToInt(place::get).toArray();
      rates[s] = sown.values().stream().mapToDouble(Double::doubleValue).toArray();
    }
    this.sureKg = new double[seeds.size()];
    List<SupplyLot> lots =
        task.lots().stream().filter(lot -> place.containsKey(lot.seedId())).toList();
    Map<String, Double> chances = new TreeMap<>();
    for (SupplyLot lot : lots) {
      lot.waiting().ifPresent(one -> chances.put(lot.lotId(), one.chance()));
      if (lot.waiting().isEmpty()) {
        sureKg[place.get(lot.seedId())] += lot.massKg();
      }
    }
    this.waiting = List.copyOf(chances.keySet());
    this.chance = chances.values().stream().mapToDouble(Double::doubleValue).toArray();
    this.waitingKg = new double[waiting.size()][seeds.size()];
    for (SupplyLot lot : lots) {
      if (lot.waiting().isPresent()) {
        waitingKg[waiting.indexOf(lot.lotId())][place.get(lot.seedId())] += lot.massKg();
      }
    }
  }

  PlanSimulation simulate() {
    double[][] met = new double[wanted.size()][runs];
    boolean[][] fit = new boolean[waiting.size()][runs];
    double[] all = new double[runs];
    double[][] sold = new double[seeds.size()][years];
    for (int run = 0; run < runs; run++) {
      one(run, fit, sold);
      for (int d = 0; d < met.length; d++) {
        met[d][run] = soldOf(wanted.get(d), sold);
        all[run] += met[d][run];
      }
    }
    List<Chance> chances = new ArrayList<>();
    for (int d = 0; d < met.length; d++) {
      chances.add(chance(wanted.get(d), met[d]));
    }
    List<LotRisk> risks = new ArrayList<>();
    for (int lot = 0; lot < fit.length; lot++) {
      risks.add(risk(lot, fit[lot], all));
    }
    return new PlanSimulation(runs, chances, risks);
  }

  private double soldOf(PlanTask.Wanted one, double[][] sold) {
    return sold[place.get(one.hybridId())][one.year() - firstYear];
  }

  private static Chance chance(PlanTask.Wanted one, double[] met) {
    double enough = one.kg() * MET;
    double chance = Arrays.stream(met).filter(kg -> kg >= enough).count();
    double[] sorted = met.clone();
    Arrays.sort(sorted);
    return new Chance(
        one,
        chance / met.length,
        sorted[(int) (0.1 * (met.length - 1))],
        sorted[(int) (0.5 * (met.length - 1))],
        sorted[(int) (0.9 * (met.length - 1))]);
  }

  private LotRisk risk(int lot, boolean[] fit, double[] all) {
    double withIt = 0;
    double without = 0;
    int times = 0;
    for (int run = 0; run < runs; run++) {
      if (fit[run]) {
        withIt += all[run];
        times++;
      } else {
        without += all[run];
      }
    }
    double less =
        times == 0 || times == runs ? 0 : Math.max(0, withIt / times - without / (runs - times));
    return new LotRisk(waiting.get(lot), chance[lot], less, less * (1 - chance[lot]));
  }

  /** One run: seasons first, so that they are the same for all seed that does not hang together. */
  private void one(int run, boolean[][] fit, double[][] sold) {
    SplittableRandom random = new SplittableRandom(seed * 1_000_003L + run);
    double[][] season = new double[Generation.values().length][years];
    for (double[] ofGeneration : season) {
      for (int i = 1; i < years; i++) {
        ofGeneration[i] = random.nextDouble();
      }
    }
    double[] store = sureKg.clone();
    for (int lot = 0; lot < fit.length; lot++) {
      fit[lot][run] = random.nextDouble() < chance[lot];
      for (int s = 0; fit[lot][run] && s < store.length; s++) {
        store[s] += waitingKg[lot][s];
      }
    }
    double[] grown = new double[store.length];
    for (int i = 0; i < years; i++) {
      for (int s = 0; s < store.length; s++) {
        GrownSeed one = seeds.get(s);
        if (grown[s] > 0) {
          store[s] +=
              grown[s] * one.cleanSpreadKgPerHa().quantile(season[one.generation().ordinal()][i]);
        }
        sold[s][i] = Math.min(store[s], wantedKg[s][i]);
        store[s] -= sold[s][i];
      }
      if (i + 1 < years) {
        grown = sow(store, i + 1);
      }
      for (int s = 0; s < store.length; s++) {
        store[s] *= seeds.get(s).kept();
      }
    }
  }

  /** Sows what is planned, cut alike where seed is short, and takes it out of store. */
  private double[] sow(double[] store, int i) {
    double[] needed = new double[store.length];
    for (int s = 0; s < store.length; s++) {
      for (int p = 0; p < parents[s].length; p++) {
        needed[parents[s][p]] += areaHa[s][i] * rates[s][p];
      }
    }
    double[] part = new double[store.length];
    for (int s = 0; s < store.length; s++) {
      part[s] = needed[s] <= store[s] ? 1 : store[s] / needed[s];
    }
    double[] grown = new double[store.length];
    for (int s = 0; s < store.length; s++) {
      double least = areaHa[s][i] > 0 ? 1 : 0;
      for (int parent : parents[s]) {
        least = Math.min(least, part[parent]);
      }
      grown[s] = areaHa[s][i] * least;
    }
    for (int s = 0; s < store.length; s++) {
      for (int p = 0; p < parents[s].length; p++) {
        int parent = parents[s][p];
        store[parent] = Math.max(0, store[parent] - grown[s] * rates[s][p]);
      }
    }
    return grown;
  }
}
