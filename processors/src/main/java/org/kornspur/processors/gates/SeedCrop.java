package org.kornspur.processors.gates;

import java.time.LocalDate;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.kornspur.contract.CropRole;
import org.kornspur.contract.FieldCropDeclared;
import org.kornspur.contract.FieldInspection;
import org.kornspur.contract.SenderRole;
import org.kornspur.ingest.act.SignedSubmissions;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.standards.CropCategories;
import org.kornspur.processors.standards.Limit;
import org.kornspur.processors.standards.Quantity;
import org.kornspur.processors.standards.Rulebook;
import org.kornspur.processors.standards.RulebookAnswer;

/** A declared seed crop under its rulebook, by the text in force in its year of harvest. */
record SeedCrop(Dossier dossier, FieldCropDeclared declaration, Rulebook rulebook, LocalDate on) {

  static Optional<SeedCrop> of(Dossier dossier, Rulebook rulebook) {
    return dossier
        .crop()
        .flatMap(
            declaration ->
                dossier.judgedOn().map(day -> new SeedCrop(dossier, declaration, rulebook, day)));
  }

  /**
   * Whether the authority accepted what the book does not allow. A grower grants himself nothing:
   * it counts as soon as somebody else than a multiplier declares it.
   */
  boolean isAccepted(Boolean stated) {
    return Boolean.TRUE.equals(stated)
        && SignedSubmissions.of(declaration)
            .filter(submission -> submission.getRole() == SenderRole.MULTIPLIER)
            .isEmpty();
  }

  CropRole role() {
    return declaration.getRole();
  }

  String declarationId() {
    return declaration.getHeader().getFactId();
  }

  /**
   * The day after which nothing can be done in the crop against foreign pollen or off-types. Where
   * no end of flowering is declared it is 15 July of the year of harvest: common practice, no
   * source.
   */
  LocalDate endOfFlowering() {
    return Optional.ofNullable(declaration.getFloweringTo())
        .orElse(LocalDate.of(declaration.getCropYear(), 7, 15));
  }

  Optional<Limit> limit(Quantity quantity) {
    return rulebook.forCrop(quantity, declaration.getCategory(), role(), on);
  }

  /** What the book says; of a crop that cannot be, nothing is known but its limits. */
  RulebookAnswer answer(Quantity quantity) {
    RulebookAnswer answer = rulebook.answerForCrop(quantity, declaration.getCategory(), role(), on);
    return answer.nothing().isPresent()
            && !CropCategories.of(role()).contains(declaration.getCategory())
        ? new RulebookAnswer.Silent()
        : answer;
  }

  /** Growth stage from which on a visit tells, BBCH; 0 where the book has none. */
  int stageFrom() {
    return limit(Quantity.INSPECTION_STAGE).map(limit -> (int) limit.value()).orElse(0);
  }

  /** Whether the crop was so far at this visit that what is wrong shows. */
  boolean tells(Visit visit) {
    return visit.firstStage() >= stageFrom();
  }

  List<FieldInspection> inspections() {
    return dossier.facts(FieldInspection.class).stream()
        .sorted(
            Comparator.comparing(FieldInspection::getVisit)
                .thenComparing(inspection -> inspection.getHeader().getFactId()))
        .toList();
  }
}
