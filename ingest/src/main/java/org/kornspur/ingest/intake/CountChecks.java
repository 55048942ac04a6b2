package org.kornspur.ingest.intake;

import java.util.List;
import java.util.Objects;
import java.util.stream.Stream;
import org.kornspur.contract.BlendComposition;
import org.kornspur.contract.CompositionMethod;
import org.kornspur.contract.FieldInspection;
import org.kornspur.contract.GerminationReplicate;
import org.kornspur.contract.GerminationTest;
import org.kornspur.contract.KernelWeightTest;
import org.kornspur.contract.OtherSeedDetermination;
import org.kornspur.contract.PostControlMethod;
import org.kornspur.contract.PostControlResult;
import org.kornspur.contract.SterilityCheck;
import org.kornspur.contract.WeighedKernels;
import org.kornspur.ingest.problem.CountProblem;
import org.kornspur.ingest.problem.IdProblem;
import org.kornspur.ingest.problem.NumberProblem;
import org.kornspur.ingest.statement.Value.Amount;

/** What counts and weights must be in themselves: a part cannot exceed its whole. */
final class CountChecks {

  /**
   * Kernels weigh what kernels of rye weigh: from 5 g a thousand, shrivelled kernels of a weak
   * line, to 100 g, twice what the largest hybrids have. Common practice, no source.
   */
  private static final double LEAST_THOUSAND_G = 5;

  private static final double MOST_THOUSAND_G = 100;

  private CountChecks() {}

  /** An inspection says what it looked at, by plants or by area, and counts within it. */
  static void check(FieldInspection visit, Problems into) {
    if (visit.getPlantsCounted() == null && visit.getAreaM2() == null) {
      into.add("plantsCounted", null, new CountProblem.NeitherPlantsNorArea());
    }
    Whole plants = new Whole("plantsCounted", visit.getPlantsCounted(), into);
    plants.holds("offTypePlants", visit.getOffTypePlants());
    plants.holds("sheddingPlants", visit.getSheddingPlants());
    plants.holds("plantsInReceptiveFlower", visit.getPlantsInReceptiveFlower());
    plants.holds("otherCerealPlants", visit.getOtherCerealPlants());
    plants.holds("hardToSeparatePlants", visit.getHardToSeparatePlants());
    plants.holds("wildOatPlants", visit.getWildOatPlants());
    plants.holds("smutPlants", visit.getSmutPlants());
    new Whole("offTypePlants", visit.getOffTypePlants(), into)
        .holds("volunteerPlants", visit.getVolunteerPlants());
  }

  /** A check of sterility looked at plants or at bagged ears, and counts within them. */
  static void check(SterilityCheck check, Problems into) {
    new Whole("plantsExamined", check.getPlantsExamined(), into)
        .holds("plantsShedding", check.getPlantsShedding());
    new Whole("baggedEars", check.getBaggedEars(), into)
        .holds("baggedEarsWithSeed", check.getBaggedEarsWithSeed());
    if ((check.getBaggedEars() == null) != (check.getBaggedEarsWithSeed() == null)) {
      into.add(
          check.getBaggedEars() == null ? "baggedEars" : "baggedEarsWithSeed",
          null,
          new CountProblem.BaggedEarsAlone());
    }
    if (check.getPlantsExamined() == 0
        && (check.getBaggedEars() == null || check.getBaggedEars() == 0)) {
      into.add("plantsExamined", 0, new CountProblem.NothingExamined());
    }
  }

  /** Seedlings grow from the seeds laid, and a test is not its own retest. */
  static void check(GerminationTest test, Problems into) {
    List<GerminationReplicate> replicates = test.getReplicates();
    for (int index = 0; index < replicates.size(); index++) {
      new Whole("seeds", replicates.get(index).getSeeds(), into)
          .holds(
              "replicates[" + index + "].normalSeedlings",
              replicates.get(index).getNormalSeedlings());
    }
    if (test.getHeader().getFactId().equals(test.getRetestOf())) {
      into.add("retestOf", test.getRetestOf(), new IdProblem.RetestsItself());
    }
  }

  /** A determination counts at least one kind of seed. */
  static void check(OtherSeedDetermination determination, Problems into) {
    boolean nothingCounted =
        Stream.of(
                determination.getOtherCereals(),
                determination.getOtherPlants(),
                determination.getRaphanusAndAgrostemma(),
                determination.getWildOats(),
                determination.getLoliumTemulentum(),
                determination.getErgotBodies())
            .allMatch(Objects::isNull);
    if (nothingCounted) {
      into.add("otherCereals", null, new CountProblem.NothingCounted());
    }
  }

  static void check(KernelWeightTest test, Problems into) {
    List<WeighedKernels> replicates = test.getReplicates();
    for (int index = 0; index < replicates.size(); index++) {
      WeighedKernels weighed = replicates.get(index);
      weight("replicates[" + index + "].massG", weighed.getMassG(), weighed.getKernels(), into);
    }
  }

  private static void weight(String field, double massG, int kernels, Problems into) {
    double leastG = LEAST_THOUSAND_G * kernels / 1000;
    double mostG = MOST_THOUSAND_G * kernels / 1000;
    if (!(massG >= leastG && massG <= mostG)) {
      into.add(
          field,
          massG,
          new NumberProblem.KernelWeight(
              Amount.grams(leastG),
              Amount.grams(mostG),
              kernels,
              Amount.grams(LEAST_THOUSAND_G),
              Amount.grams(MOST_THOUSAND_G)));
    }
  }

  static void check(BlendComposition count, Problems into) {
    new Whole("kernelsExamined", count.getKernelsExamined(), into)
        .holds("pollinatorKernels", count.getPollinatorKernels());
    errorRates(
        count.getMethod() == CompositionMethod.MARKER,
        count.getFalsePositivePercent(),
        count.getFalseNegativePercent(),
        into);
    weighed(count, into);
  }

  /** Kernels that were told apart are weighed as they lay in the sample, all and the pollinator. */
  private static void weighed(BlendComposition count, Problems into) {
    Double examinedG = count.getExaminedMassG();
    Double pollinatorG = count.getPollinatorMassG();
    if (count.getMethod() == CompositionMethod.GROW_OUT) {
      ofKernelsOnly("examinedMassG", examinedG, into);
      ofKernelsOnly("pollinatorMassG", pollinatorG, into);
    } else if ((examinedG == null) != (pollinatorG == null)) {
      into.add(
          examinedG == null ? "examinedMassG" : "pollinatorMassG",
          null,
          new CountProblem.WeighedAlone());
    } else if (examinedG != null) {
      weight("examinedMassG", examinedG, count.getKernelsExamined(), into);
      weight("pollinatorMassG", pollinatorG, count.getPollinatorKernels(), into);
    }
  }

  private static void ofKernelsOnly(String field, Double massG, Problems into) {
    if (massG != null) {
      into.add(field, massG, new CountProblem.WeighedAfterGrowing());
    }
  }

  static void check(PostControlResult result, Problems into) {
    Whole plants = new Whole("plantsExamined", result.getPlantsExamined(), into);
    plants.holds("offTypePlants", result.getOffTypePlants());
    plants.holds("sheddingPlants", result.getSheddingPlants());
    plants.holds("nonHybridPlants", result.getNonHybridPlants());
    errorRates(
        result.getMethod() == PostControlMethod.MARKER,
        result.getFalsePositivePercent(),
        result.getFalseNegativePercent(),
        into);
  }

  /** Error rates are those of a marker method, and tell together alone. */
  private static void errorRates(
      boolean isMarker, Double falsePositive, Double falseNegative, Problems into) {
    if (!isMarker) {
      ofMarkerOnly("falsePositivePercent", falsePositive, into);
      ofMarkerOnly("falseNegativePercent", falseNegative, into);
    } else if ((falsePositive == null) != (falseNegative == null)) {
      into.add(
          falsePositive == null ? "falsePositivePercent" : "falseNegativePercent",
          null,
          new CountProblem.ErrorRateAlone());
    }
  }

  private static void ofMarkerOnly(String field, Double rate, Problems into) {
    if (rate != null) {
      into.add(field, rate, new CountProblem.ErrorRatesOfOtherMethod());
    }
  }

  /** The field that holds a whole. A count that was not made is null and breaks nothing. */
  private record Whole(String field, Integer whole, Problems into) {
    void holds(String part, Integer count) {
      if (count != null && whole != null && count > whole) {
        into.add(part, count, new CountProblem.PartAboveWhole(field, whole));
      }
    }
  }
}
