package org.kornspur.api.web.fieldbook;

import java.util.List;
import java.util.Optional;
import org.kornspur.api.web.PageAddresses;
import org.kornspur.contract.CropRole;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.standing.StandingState;

/**
 * A crop as the field book shows it.
 *
 * @param fieldId the field as the grower calls it
 * @param href its page in the field book
 * @param flowering expected or seen, in words; empty where nothing was said
 * @param reasons why it is not fit; empty where it is not said to be so
 * @param owed gates that evidence is owed for, in words
 * @param visits visits so far, the first first
 * @param lots seed of its hybrid that is left
 */
public record FieldCrop(
    String id,
    String fieldId,
    String href,
    CropRole role,
    String hybridId,
    String seedId,
    String category,
    int cropYear,
    String holder,
    StandingState state,
    Optional<String> flowering,
    List<Reason> reasons,
    List<String> owed,
    List<Visit> visits,
    List<SeedLot> lots) {

  /** One visit; what was counted in several parts on it is one visit. */
  public record Visit(int number, String day, int bbchStage) {}

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

  /** Page with all its gates. */
  public String pageHref() {
    return PageAddresses.of(Subject.crop(id));
  }

  /** Number of the next visit. */
  public int nextVisit() {
    return visits.stream().mapToInt(Visit::number).max().orElse(0) + 1;
  }

  /** Whether a sterile female stands in it. */
  public boolean hasFemale() {
    return role == CropRole.STERILE_FEMALE || role == CropRole.F1_MIXTURE;
  }

  public Optional<Visit> lastVisit() {
    return visits.isEmpty() ? Optional.empty() : Optional.of(visits.get(visits.size() - 1));
  }
}
