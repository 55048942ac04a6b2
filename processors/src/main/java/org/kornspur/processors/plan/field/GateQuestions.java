package org.kornspur.processors.plan.field;

import java.time.LocalDate;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.kornspur.contract.Category;
import org.kornspur.contract.CropRole;
import org.kornspur.contract.PollenSourceKind;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.Entry;
import org.kornspur.processors.dossier.Report;
import org.kornspur.processors.dossier.Report.EarlierRye;
import org.kornspur.processors.dossier.Report.Neighbour;
import org.kornspur.processors.gates.GateRule;
import org.kornspur.processors.gates.Gates;
import org.kornspur.processors.gates.IsolationSources;
import org.kornspur.processors.plan.field.RyeStand.SeedCropRules;
import org.kornspur.processors.standards.Limit;
import org.kornspur.processors.standards.Quantity;
import org.kornspur.processors.standards.Rulebook;
import org.kornspur.processors.standards.RulebookAnswer;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Verdict;

/**
 * Asks the gates themselves what a seed crop must be kept from. The distance that a source must
 * keep does not hang on where it lies, so each kind of source is asked of once.
 */
final class GateQuestions {
  private static final GateRule PREVIOUS_CROPPING =
      Gates.all().stream()
          .filter(rule -> rule.gate() == Gate.PREVIOUS_CROPPING)
          .findFirst()
          .orElseThrow();

  private final Map<SourceOfCrop, Optional<Limit>> limits = new HashMap<>();

  /** All by which a distance that is asked for differs from another. */
  private record SourceOfCrop(
      List<Object> crop,
      double areaHa,
      Optional<PollenSourceKind> kind,
      Optional<LocalDate> from,
      Optional<LocalDate> to) {}

  /** Rye that stood too short a time ago. */
  record Recent(EarlierRye rye, int years, Limit limit) {}

  /** The most that a book asks any source to keep from a crop, metres. */
  static double widestM(Rulebook rulebook, Category category, CropRole role, int year) {
    LocalDate first = LocalDate.of(year, 1, 1);
    LocalDate last = LocalDate.of(year, 12, 31);
    return Stream.of(Quantity.values())
        .filter(quantity -> quantity.name().startsWith(Quantity.ISOLATION_DISTANCE.name()))
        .flatMap(
            quantity ->
                Stream.of(first, last)
                    .flatMap(day -> rulebook.forCrop(quantity, category, role, day).stream()))
        .mapToDouble(Limit::value)
        .max()
        .orElse(0);
  }

  /** The distance that a source must keep, where it is nearer; empty where it may lie there. */
  Optional<Limit> brokenBy(SeedCropRules crop, Neighbour source) {
    return limits
        .computeIfAbsent(
            new SourceOfCrop(
                kind(crop),
                source.areaHa(),
                source.sourceKind(),
                source.sheddingFrom(),
                source.sheddingTo()),
            asked -> limit(crop, source))
        .filter(limit -> !limit.holds(source.distanceM()));
  }

  /** Crops of plans are all declared by one fact, which says all that the gates ask of them. */
  private static List<Object> kind(SeedCropRules crop) {
    return List.of(
        crop.declared().getHeader().getFactId(),
        crop.rulebook().id(),
        crop.declared().getRole(),
        crop.declared().getCategory(),
        crop.declared().getCropYear());
  }

  private static Optional<Limit> limit(SeedCropRules crop, Neighbour source) {
    return IsolationSources.of(dossier(crop, List.of(source), List.of()), crop.rulebook())
        .flatMap(ground -> ground.sources().stream().findFirst())
        .map(IsolationSources.Source::limit);
  }

  /** Whether the book says nothing of the distance that a crop must keep. */
  boolean isBookSilent(SeedCropRules crop) {
    return crop.rulebook()
            .answerForCrop(
                Quantity.ISOLATION_DISTANCE,
                crop.declared().getCategory(),
                crop.declared().getRole(),
                LocalDate.of(crop.declared().getCropYear(), 1, 1))
        instanceof RulebookAnswer.Silent;
  }

  /** The latest rye on a crop's ground, where it stood too short a time ago. */
  Optional<Recent> ryeBefore(SeedCropRules crop, List<EarlierRye> earlier) {
    if (earlier.isEmpty()) {
      return Optional.empty();
    }
    return PREVIOUS_CROPPING.judge(dossier(crop, List.of(), earlier), crop.rulebook()).stream()
        .filter(Verdict.NotMet.class::isInstance)
        .flatMap(verdict -> verdict.limit().stream())
        .findFirst()
        .flatMap(
            limit ->
                earlier.stream()
                    .map(rye -> new Recent(rye, yearsSince(crop, rye), limit))
                    .filter(rye -> !limit.holds(rye.years()))
                    .max(Comparator.comparingInt(rye -> rye.rye().cropYear())));
  }

  private static int yearsSince(SeedCropRules crop, EarlierRye rye) {
    return crop.declared().getCropYear() - rye.cropYear() - 1;
  }

  private static Dossier dossier(
      SeedCropRules crop, List<Neighbour> near, List<EarlierRye> earlier) {
    Subject subject = Subject.crop(crop.declared().getCropId());
    return new Dossier(
        subject,
        List.of(new Entry(crop.declared(), Optional.empty())),
        List.of(new Report.FromGround("plan", subject, near, earlier, List.of())));
  }
}
