package org.kornspur.processors.gates;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.Predicate;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.contract.CropRole;
import org.kornspur.contract.FieldCropDeclared;
import org.kornspur.contract.FieldInspection;
import org.kornspur.contract.InspectedPart;
import org.kornspur.contract.SenderRole;
import org.kornspur.ingest.attestation.SignedSubmissions;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.ground.FloweringWindow;
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
    return flowering().to().orElse(LocalDate.of(declaration.getCropYear(), 7, 15));
  }

  /** The days on which it flowers, as declared and as seen. */
  FloweringWindow flowering() {
    return dossier.flowering();
  }

  /** The days on which it flowers by its declaration alone. */
  FloweringWindow declaredFlowering() {
    return FloweringWindow.flowering(declaration);
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

  List<FieldInspection> inspections(InspectedPart part) {
    return inspections().stream().filter(count -> count.getPart() == part).toList();
  }

  /**
   * Of counts those that count: what speaks against the crop always; what does not, once, and where
   * it can have been made on its day. So neither a repeat nor a wrong day fills a sample or finds
   * bad plants gone.
   */
  <T extends SpecificRecord> List<T> counting(List<T> counts, Predicate<T> speaksAgainst) {
    if (counts.isEmpty()) {
      return List.of();
    }
    CropSeason season = CropSeason.of(dossier, declaration);
    Set<List<Object>> told = new HashSet<>();
    return counts.stream()
        .filter(
            count -> speaksAgainst.test(count) || (season.canHold(count) && told.add(said(count))))
        .toList();
  }

  /**
   * The moment and all that a fact says, but for the rest of its header. Spots of one day that show
   * the same are told apart by their time.
   */
  private static List<Object> said(SpecificRecord fact) {
    List<Object> said = new ArrayList<>();
    said.add(FactType.headerOf(fact).getHappenedAt());
    fact.getSchema().getFields().stream()
        .filter(field -> !field.name().equals("header"))
        .forEach(field -> said.add(fact.get(field.pos())));
    return said;
  }
}
