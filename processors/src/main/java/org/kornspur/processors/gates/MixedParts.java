package org.kornspur.processors.gates;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeSet;
import java.util.function.Function;
import java.util.function.Predicate;
import java.util.stream.Stream;
import org.kornspur.contract.Blend;
import org.kornspur.contract.LotMass;
import org.kornspur.contract.ShareBasis;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.statement.Coded;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.Report;
import org.kornspur.processors.dossier.SeedMeasures;
import org.kornspur.processors.dossier.SeedMeasures.Mean;
import org.kornspur.processors.finding.BlendFinding;
import org.kornspur.processors.finding.Evidence;
import org.kornspur.processors.statistics.PollinatorShare;

/**
 * What went into a mixture, with what the lots' own dossiers reported of thousand-kernel weight and
 * germination. Masses are taken as exact beside the errors of those.
 */
final class MixedParts {
  private record Part(Subject lot, boolean pollinator, double massKg, SeedMeasures measures) {}

  private static final String WEIGHTS_APART = Coded.codeOf(BlendFinding.KernelWeightsApart.class);

  private final List<Part> parts = new ArrayList<>();
  private final SortedMap<ShareBasis, Double> told;
  private final Set<String> factIds = new TreeSet<>();

  MixedParts(Dossier dossier, List<Blend> blends) {
    told = MixtureReport.shares(dossier);
    for (Blend blend : blends) {
      factIds.add(blend.getHeader().getFactId());
      LocalDate mixed = FactType.dayOf(blend);
      blend.getFemales().forEach(part -> add(dossier, part, false, mixed));
      blend.getPollinators().forEach(part -> add(dossier, part, true, mixed));
    }
  }

  private void add(Dossier dossier, LotMass part, boolean pollinator, LocalDate mixed) {
    Subject lot = Subject.lot(part.getLotId());
    SeedMeasures measures =
        dossier.parent(lot).map(parent -> measuresOn(mixed, parent)).orElse(SeedMeasures.none());
    parts.add(new Part(lot, pollinator, part.getMassKg(), measures));
  }

  /** A germination that was too old when it was mixed in proves nothing. */
  private static SeedMeasures measuresOn(LocalDate mixed, Report.FromParent parent) {
    return GerminationAge.isTooOld(parent.seedVerdicts(), mixed)
        ? parent.measures().germinationInDoubt()
        : parent.measures();
  }

  boolean none() {
    return parts.isEmpty();
  }

  /** Facts that the share on a basis rests on. */
  List<String> factIds(ShareBasis basis) {
    Set<String> ids = new TreeSet<>(factIds);
    parts.forEach(part -> part.measures().factIds(basis).forEach(ids::add));
    return List.copyOf(ids);
  }

  /** What the lots tell of weighings that do not count. */
  List<Coded> setAside(ShareBasis basis) {
    return basis == ShareBasis.MASS
        ? List.of()
        : parts.stream().flatMap(part -> part.measures().setAside().stream()).distinct().toList();
  }

  /** Tests that are missing before the share can be told on a basis. */
  List<Evidence> missing(ShareBasis basis) {
    return tests(
        basis,
        part -> part.measures().thousandKernelWeightG().isEmpty(),
        part -> usableGermination(part).isEmpty());
  }

  /** Tests by which a mixture does not hold yet, though by them it can fail. */
  List<Evidence> inDoubt(ShareBasis basis) {
    return tests(
        basis,
        part -> part.measures().thousandKernelWeightG().filter(Mean::inDoubt).isPresent(),
        part -> part.measures().germinationPercent().filter(Mean::inDoubt).isPresent());
  }

  /** No further weighing settles weights that contradict each other; the mixture itself does. */
  private static Evidence weightOf(Part part) {
    boolean isApart =
        part.measures().setAside().stream().anyMatch(why -> why.code().equals(WEIGHTS_APART));
    return isApart ? new Evidence.LargerKernelSample() : new Evidence.KernelWeightOf(part.lot());
  }

  private List<Evidence> tests(
      ShareBasis basis, Predicate<Part> lacksWeight, Predicate<Part> lacksGermination) {
    Stream<Evidence> weights =
        parts.stream()
            .filter(part -> basis != ShareBasis.MASS)
            .filter(lacksWeight)
            .map(MixedParts::weightOf);
    Stream<Evidence> germinations =
        parts.stream()
            .filter(part -> basis == ShareBasis.VIABLE_KERNELS)
            .filter(lacksGermination)
            .map(part -> new Evidence.GerminationTestOf(part.lot()));
    return Stream.concat(germinations, weights).distinct().toList();
  }

  /** Share of pollinator on a basis; empty where a test is missing or a lot does not grow. */
  Optional<PollinatorShare> pollinatorShare(ShareBasis basis) {
    boolean dead =
        basis == ShareBasis.VIABLE_KERNELS
            && parts.stream()
                .flatMap(part -> usableGermination(part).stream())
                .anyMatch(germination -> germination.mean() <= 0);
    if (none() || dead || !missing(basis).isEmpty()) {
      return Optional.empty();
    }
    return Optional.of(share(basis, Part::measures));
  }

  /**
   * The same by those single tests that make it largest or smallest.
   *
   * @throws java.util.NoSuchElementException where a test is missing
   */
  double shareBySingleTests(ShareBasis basis, boolean largest) {
    return share(basis, part -> part.measures().ofOneTest(part.pollinator() == largest)).share();
  }

  private PollinatorShare share(ShareBasis basis, Function<Part, SeedMeasures> measures) {
    return PollinatorShare.of(
        parts.stream()
            .map(part -> measures.apply(part).part(part.pollinator(), part.massKg(), basis))
            .toList(),
        basis);
  }

  /**
   * By how much the ratio of pollinator to female on one basis must be multiplied to have it on
   * another; empty where a test is missing. A part that was split off takes it from the whole.
   */
  Optional<Double> ratioFactor(ShareBasis from, ShareBasis to) {
    if (from == to) {
      return Optional.of(1.0);
    }
    return odds(to).flatMap(wanted -> odds(from).map(given -> wanted / given));
  }

  private Optional<Double> odds(ShareBasis basis) {
    Optional<Double> share =
        none()
            ? Optional.ofNullable(told.get(basis))
            : pollinatorShare(basis).map(PollinatorShare::share);
    return share.map(of -> of / (1 - of));
  }

  /** A test with more seedlings than seeds says nothing and waits for its correction. */
  private static Optional<Mean> usableGermination(Part part) {
    return part.measures().germinationPercent().filter(percent -> percent.mean() <= 100);
  }
}
