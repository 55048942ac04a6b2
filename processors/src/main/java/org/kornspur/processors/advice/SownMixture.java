package org.kornspur.processors.advice;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.Function;
import org.kornspur.contract.BlendComposition;
import org.kornspur.contract.FieldCropDeclared;
import org.kornspur.contract.LotMass;
import org.kornspur.contract.ShareBasis;
import org.kornspur.contract.Sowing;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.MethodErrors;
import org.kornspur.processors.dossier.Report.Scheme;
import org.kornspur.processors.dossier.SeedMeasures;
import org.kornspur.processors.statistics.Interval;
import org.kornspur.processors.statistics.MarkerCorrection;
import org.kornspur.processors.statistics.PollinatorShare;
import org.kornspur.processors.statistics.TriangularRange;

/**
 * Share of pollinator among the plants of a crop, from the lots that were sown and those that they
 * were mixed from. Where that cannot be calculated: from a sample of the mixture, then from the
 * breeder's ratio, then from common practice.
 */
final class SownMixture {
  private static final double CONFIDENCE = 0.95;
  private static final AdviceInput WHAT = new AdviceInput.PollinatorShare();
  private static final TriangularRange PRACTICE = new TriangularRange(0.03, 0.05, 0.10);

  private final List<Part> parts = new ArrayList<>();
  private final List<BlendComposition> samples = new ArrayList<>();
  private final Set<String> factIds = new TreeSet<>();
  private final Set<Missing> missing = new LinkedHashSet<>();
  private final Set<Subject> unexplained;
  private final InputValue input;

  private record Part(Subject lot, boolean pollinator, double massKg, SeedMeasures measures) {

    boolean hasWeight() {
      return measures.thousandKernelWeightG().filter(weight -> weight.mean() > 0).isPresent();
    }

    boolean hasGermination() {
      return measures
          .germinationPercent()
          .filter(percent -> percent.mean() > 0 && percent.mean() <= 100)
          .isPresent();
    }
  }

  SownMixture(Dossier crop, FieldCropDeclared declaration, Function<Subject, Dossier> dossiers) {
    Map<Subject, Double> sownKg = new TreeMap<>();
    for (Sowing sowing : crop.facts(Sowing.class)) {
      factIds.add(sowing.getHeader().getFactId());
      for (LotMass sown : sowing.getSown()) {
        sownKg.merge(Subject.lot(sown.getLotId()), sown.getMassKg(), Double::sum);
      }
    }
    MixedSeed seed = new MixedSeed(crop, sownKg, dossiers);
    seed.lots().forEach(lot -> samples.addAll(lot.dossier().facts(BlendComposition.class)));
    seed.components().forEach(lot -> parts.add(part(lot, declaration)));
    factIds.addAll(seed.factIds());
    unexplained = seed.unexplained();
    input = calculated().or(this::sampled).orElseGet(() -> stated(crop.scheme()));
  }

  private static Part part(MixedSeed.Lot lot, FieldCropDeclared declaration) {
    String componentId = lot.dossier().material().orElseThrow().seedId();
    return new Part(
        lot.dossier().subject(),
        componentId.equals(declaration.getPollenComponentId()),
        lot.massKg(),
        lot.measures());
  }

  InputValue input() {
    return input;
  }

  /** What would have to be brought for a better share. */
  Set<Missing> missing() {
    return missing;
  }

  private Optional<InputValue> calculated() {
    unexplained.forEach(lot -> missing.add(new Missing.MixedFrom(lot)));
    if (parts.isEmpty() && unexplained.isEmpty()) {
      missing.add(new Missing.Sowing());
    }
    if (parts.isEmpty() || !unexplained.isEmpty()) {
      return Optional.empty();
    }
    ShareBasis basis = basis();
    parts.forEach(part -> part.measures().factIds(basis).forEach(factIds::add));
    PollinatorShare share =
        PollinatorShare.of(
            parts.stream()
                .map(part -> part.measures().part(part.pollinator(), part.massKg(), basis))
                .toList(),
            basis);
    Interval interval = share.interval(CONFIDENCE);
    return Optional.of(
        InputValue.counted(
            WHAT,
            new TriangularRange(interval.lower(), share.share(), interval.upper()),
            "share",
            new InputSource.Mixed(basis),
            List.copyOf(factIds)));
  }

  private ShareBasis basis() {
    for (Part part : parts) {
      if (!part.hasWeight()) {
        missing.add(new Missing.KernelWeight(part.lot()));
      }
      if (!part.hasGermination()) {
        missing.add(new Missing.GerminationTest(part.lot()));
      }
    }
    if (!parts.stream().allMatch(Part::hasWeight)) {
      return ShareBasis.MASS;
    }
    return parts.stream().allMatch(Part::hasGermination)
        ? ShareBasis.VIABLE_KERNELS
        : ShareBasis.KERNELS;
  }

  private Optional<InputValue> sampled() {
    List<BlendComposition> usable =
        samples.stream()
            .distinct()
            .filter(sample -> sample.getPollinatorKernels() <= sample.getKernelsExamined())
            .filter(sample -> errors(sample).separates())
            .toList();
    int kernels = usable.stream().mapToInt(BlendComposition::getKernelsExamined).sum();
    if (kernels == 0) {
      return Optional.empty();
    }
    int pollinator = usable.stream().mapToInt(BlendComposition::getPollinatorKernels).sum();
    MarkerCorrection errors =
        MarkerCorrection.together(
            usable.stream()
                .map(
                    sample ->
                        new MarkerCorrection.Counted(sample.getKernelsExamined(), errors(sample)))
                .toList());
    MarkerCorrection.Share share = errors.trueShare(pollinator, kernels, CONFIDENCE);
    return Optional.of(
        InputValue.counted(
            WHAT,
            new TriangularRange(share.interval().lower(), share.share(), share.interval().upper()),
            "share",
            new InputSource.Sampled(pollinator, kernels),
            FactType.idsOf(usable)));
  }

  /** Errors that are not stated cannot be taken out. */
  private static MarkerCorrection errors(BlendComposition sample) {
    return MethodErrors.of(sample).orElse(MarkerCorrection.NONE);
  }

  private static InputValue stated(Optional<Scheme> scheme) {
    return scheme
        .map(
            stated -> {
              double percent = stated.pollinatorSharePercent();
              double tolerance = stated.tolerancePercentPoints();
              return new InputValue(
                  WHAT,
                  new TriangularRange(
                      Math.max(0, percent - tolerance) / 100,
                      percent / 100,
                      Math.min(100, percent + tolerance) / 100),
                  "share",
                  InputValue.Origin.STATED,
                  new InputSource.BreedersRatio(stated.shareBasis()),
                  true,
                  List.of(stated.factId()));
            })
        .orElseGet(
            () ->
                new InputValue(
                    WHAT,
                    PRACTICE,
                    "share",
                    InputValue.Origin.ASSUMED,
                    new InputSource.CommonPractice(),
                    false,
                    List.of()));
  }
}
