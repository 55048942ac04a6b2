package org.kornspur.processors.gates;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import org.kornspur.contract.Blend;
import org.kornspur.contract.LotMass;
import org.kornspur.contract.ShareBasis;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.Report;
import org.kornspur.processors.dossier.SeedMeasures;
import org.kornspur.processors.dossier.SeedMeasures.Estimate;

/**
 * How much female and pollinator went into a mixture, by mass, kernels or viable kernels.
 *
 * <p>Kernels are mass over thousand-kernel weight; viable kernels are kernels times germination.
 * The errors of both are taken as independent between lots and small against the values.
 */
final class MixedParts {
  private static final double GRAMS_IN_KG = 1000;
  private static final double KERNELS_WEIGHED = 1000;

  private record Part(Subject lot, boolean pollinator, double massKg, SeedMeasures measures) {}

  /** An amount with the square of its standard error. */
  private record Amount(double value, double variance) {
    Amount plus(Amount other) {
      return new Amount(value + other.value, variance + other.variance);
    }
  }

  /**
   * Share of pollinator.
   *
   * @param percent the share, percent
   * @param standardError its standard error, percentage points
   */
  record Share(double percent, double standardError) {}

  private final List<Part> parts = new ArrayList<>();
  private final Set<String> factIds = new TreeSet<>();

  MixedParts(Dossier dossier, List<Blend> blends) {
    for (Blend blend : blends) {
      factIds.add(blend.getHeader().getFactId());
      blend.getFemales().forEach(part -> add(dossier, part, false));
      blend.getPollinators().forEach(part -> add(dossier, part, true));
    }
  }

  private void add(Dossier dossier, LotMass part, boolean pollinator) {
    Subject lot = Subject.lot(part.getLotId());
    SeedMeasures measures =
        dossier.parent(lot).map(Report.FromParent::measures).orElse(SeedMeasures.none());
    parts.add(new Part(lot, pollinator, part.getMassKg(), measures));
  }

  boolean none() {
    return parts.isEmpty();
  }

  /** Facts that the share on a basis rests on. */
  List<String> factIds(ShareBasis basis) {
    Set<String> ids = new TreeSet<>(factIds);
    for (Part part : parts) {
      if (basis != ShareBasis.MASS) {
        part.measures().thousandKernelWeightG().map(Estimate::factId).ifPresent(ids::add);
      }
      if (basis == ShareBasis.VIABLE_KERNELS) {
        part.measures().germinationPercent().map(Estimate::factId).ifPresent(ids::add);
      }
    }
    return List.copyOf(ids);
  }

  /** Tests that are missing before the share can be told on a basis. */
  List<String> missing(ShareBasis basis) {
    Set<String> missing = new TreeSet<>();
    for (Part part : parts) {
      if (basis != ShareBasis.MASS && part.measures().thousandKernelWeightG().isEmpty()) {
        missing.add("the thousand-kernel weight of " + part.lot());
      }
      if (basis == ShareBasis.VIABLE_KERNELS && part.measures().germinationPercent().isEmpty()) {
        missing.add("a germination test of " + part.lot());
      }
    }
    return List.copyOf(missing);
  }

  /** Share of pollinator on a basis; empty where a test is missing or nothing can grow. */
  Optional<Share> pollinatorShare(ShareBasis basis) {
    if (none() || !missing(basis).isEmpty()) {
      return Optional.empty();
    }
    Amount pollinator = total(basis, true);
    Amount female = total(basis, false);
    double all = pollinator.value() + female.value();
    if (all <= 0) {
      return Optional.empty();
    }
    double variance =
        (female.value() * female.value() * pollinator.variance()
                + pollinator.value() * pollinator.value() * female.variance())
            / Math.pow(all, 4);
    return Optional.of(new Share(100 * pollinator.value() / all, 100 * Math.sqrt(variance)));
  }

  /**
   * By how much the ratio of pollinator to female on one basis must be multiplied to have it on
   * another; empty where a test is missing.
   */
  Optional<Double> ratioFactor(ShareBasis from, ShareBasis to) {
    if (from == to) {
      return Optional.of(1.0);
    }
    return ratio(to).flatMap(wanted -> ratio(from).map(given -> wanted / given));
  }

  private Optional<Double> ratio(ShareBasis basis) {
    if (none() || !missing(basis).isEmpty()) {
      return Optional.empty();
    }
    double pollinator = total(basis, true).value();
    double female = total(basis, false).value();
    return pollinator > 0 && female > 0 ? Optional.of(pollinator / female) : Optional.empty();
  }

  private Amount total(ShareBasis basis, boolean pollinator) {
    return parts.stream()
        .filter(part -> part.pollinator() == pollinator)
        .map(part -> amount(part, basis))
        .reduce(new Amount(0, 0), Amount::plus);
  }

  private static Amount amount(Part part, ShareBasis basis) {
    return switch (basis) {
      case MASS -> new Amount(part.massKg(), 0);
      case KERNELS -> kernels(part);
      case VIABLE_KERNELS -> viable(part, kernels(part));
    };
  }

  private static Amount kernels(Part part) {
    Estimate weightG = part.measures().thousandKernelWeightG().orElseThrow();
    double kernels = part.massKg() * GRAMS_IN_KG * KERNELS_WEIGHED / weightG.mean();
    double relative = weightG.standardError() / weightG.mean();
    return new Amount(kernels, Math.pow(kernels * relative, 2));
  }

  private static Amount viable(Part part, Amount kernels) {
    Estimate germination = part.measures().germinationPercent().orElseThrow();
    double share = germination.mean() / 100;
    double variance =
        share * share * kernels.variance()
            + Math.pow(kernels.value() * germination.standardError() / 100, 2);
    return new Amount(kernels.value() * share, variance);
  }
}
