package org.kornspur.api.readmodel;

import java.util.Comparator;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.standing.ReleaseStep;
import org.kornspur.standing.SeedMaterial;
import org.kornspur.standing.StandingState;

/**
 * Which standings to list, and which page of them. What is empty does not restrict.
 *
 * @param kinds lots, crops or both
 * @param states any of these
 * @param releases any of these steps of release
 * @param gateNotMet gate that is not met, own or inherited
 * @param gateOwed gate that evidence is owed for, own or inherited
 * @param owing only those that owe any evidence
 * @param idPrefix beginning of the id, in any case
 * @param order in which they are listed
 * @param page from 1
 * @param size entries a page
 */
public record StandingQuery(
    Set<Subject.Kind> kinds,
    Set<StandingState> states,
    Set<ReleaseStep> releases,
    Optional<String> hybridId,
    Optional<String> seedId,
    Optional<String> category,
    Optional<Integer> cropYear,
    Optional<String> holder,
    Optional<String> rulebookId,
    Optional<String> gateNotMet,
    Optional<String> gateOwed,
    boolean owing,
    Optional<String> idPrefix,
    Order order,
    int page,
    int size) {

  /** Order of a list; each is total, so that pages do not overlap. */
  public enum Order {
    /** Not fit, evidence owed, fit; within each by id. */
    WORST,
    ID,
    /** Most seed in store, then by id. */
    STORE,
    /** Judged last, then by id. */
    CHANGED;

    /**
     * Rows in this order.
     *
     * @param rows by urgency where that is asked for, else by id
     */
    Stream<StandingIndexRow> sorted(Stream<StandingIndexRow> rows) {
      return switch (this) {
        case WORST, ID -> rows;
        case STORE -> rows.sorted(Comparator.comparingDouble(StandingIndexRow::leftKg).reversed());
        case CHANGED -> rows.sorted(Comparator.comparing(StandingIndexRow::changedAt).reversed());
      };
    }
  }

  /** The same question, for all that match at once. */
  public StandingQuery whole() {
    return new StandingQuery(
        kinds,
        states,
        releases,
        hybridId,
        seedId,
        category,
        cropYear,
        holder,
        rulebookId,
        gateNotMet,
        gateOwed,
        owing,
        idPrefix,
        order,
        1,
        Integer.MAX_VALUE);
  }

  boolean matches(StandingIndexRow row) {
    return kinds.contains(row.subject().kind())
        && (states.isEmpty() || states.contains(row.state()))
        && (releases.isEmpty() || releases.contains(row.release()))
        && (!owing || !row.owed().isEmpty())
        && gateNotMet.map(row.notMet()::contains).orElse(true)
        && gateOwed.map(row.owed()::contains).orElse(true)
        && same(holder, row.holder())
        && idPrefix.map(prefix -> startsWith(row.subject().id(), prefix)).orElse(true)
        && (asksForNoMaterial() || row.material().map(this::matches).orElse(false));
  }

  /** Whether every crop and lot matches. */
  boolean leavesOutNothing() {
    return kinds.containsAll(Set.of(Subject.Kind.LOT, Subject.Kind.CROP))
        && states.isEmpty()
        && releases.isEmpty()
        && !owing
        && gateNotMet.isEmpty()
        && gateOwed.isEmpty()
        && holder.isEmpty()
        && idPrefix.isEmpty()
        && asksForNoMaterial();
  }

  private boolean asksForNoMaterial() {
    return hybridId.isEmpty()
        && seedId.isEmpty()
        && category.isEmpty()
        && cropYear.isEmpty()
        && rulebookId.isEmpty();
  }

  private boolean matches(SeedMaterial material) {
    return hybridId.map(material.getHybridId()::equals).orElse(true)
        && seedId.map(material.getSeedId()::equals).orElse(true)
        && category.map(material.getCategory()::equals).orElse(true)
        && cropYear.map(year -> year == material.getCropYear()).orElse(true)
        && rulebookId.map(material.getRulebookId()::equals).orElse(true);
  }

  private static boolean same(Optional<String> asked, Optional<String> held) {
    return asked.isEmpty() || asked.equals(held);
  }

  private static boolean startsWith(String id, String prefix) {
    return id.regionMatches(true, 0, prefix, 0, prefix.length());
  }
}
