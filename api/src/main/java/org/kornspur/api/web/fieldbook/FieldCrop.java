package org.kornspur.api.web.fieldbook;

import java.util.List;
import java.util.Optional;
import org.kornspur.api.text.Addresses;
import org.kornspur.contract.CropRole;
import org.kornspur.contract.FieldCropDeclared;
import org.kornspur.contract.FieldInspection;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.standing.StandingState;

/**
 * A crop as the field book shows it.
 *
 * @param reasons why it is not fit; empty where it is not said to be so
 * @param owed gates that evidence is owed for, in words
 * @param visits visits so far, the first first; what was counted in several parts is one visit
 * @param lots seed of its hybrid that is left
 */
public record FieldCrop(
    FieldCropDeclared declared,
    StandingState state,
    List<Reason> reasons,
    List<String> owed,
    List<FieldInspection> visits,
    List<SeedLot> lots) {

  /**
   * A gate that is not met, as the page of the crop names it.
   *
   * @param gate in the words of the trade, with its origin where an ancestor brought it
   * @param sentence as recorded
   */
  public record Reason(String gate, String sentence) {}

  /**
   * Seed that may be sown.
   *
   * @param seed kind of seed, in words
   * @param left kilograms left, with the unit
   */
  public record SeedLot(String id, String seed, String left) {}

  public String id() {
    return declared.getCropId();
  }

  /** Page with all its gates. */
  public String pageHref() {
    return Addresses.pageOf(Subject.crop(id()));
  }

  /** Its page in the field book. */
  public String href() {
    return "/field-book" + pageHref();
  }

  /** Number of the next visit. */
  int nextVisit() {
    return lastVisit().map(FieldInspection::getVisit).orElse(0) + 1;
  }

  /** Whether a sterile female stands in it. */
  boolean hasFemale() {
    return declared.getRole() == CropRole.STERILE_FEMALE
        || declared.getRole() == CropRole.F1_MIXTURE;
  }

  public Optional<FieldInspection> lastVisit() {
    return visits.isEmpty() ? Optional.empty() : Optional.of(visits.get(visits.size() - 1));
  }
}
