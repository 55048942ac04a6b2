package org.kornspur.processors.dossier;

import java.time.Instant;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.contract.FactHeader;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.SubjectsNamed;

/**
 * One fact in a dossier, and whether another took its place.
 *
 * @param fact the fact
 * @param superseded by what, where a correction or withdrawal named it
 * @param awaitsConfirmation whether it is to take the place of another fact and nothing proves who
 *     sent it; until somebody with the right to it confirms it, it does not count
 * @param unconfirmed corrections and withdrawals of this fact that take no effect, for nothing
 *     proves who sent them, or they are of another subject; empty for a fact that was superseded
 */
public record Entry(
    SpecificRecord fact,
    Optional<Superseded> superseded,
    boolean awaitsConfirmation,
    List<Superseded> unconfirmed) {

  /** A fact of whose corrections every sender is proven. */
  public Entry(SpecificRecord fact, Optional<Superseded> superseded) {
    this(fact, superseded, false, List.of());
  }

  /** The order of a dossier: when it happened, then id. */
  public static final Comparator<Entry> BY_TIME_THEN_ID =
      Comparator.comparing((Entry entry) -> entry.header().getHappenedAt())
          .thenComparing(entry -> entry.header().getFactId());

  /**
   * The fact that took it back or corrected it, and why.
   *
   * @param recordedBy who recorded that fact; empty where an earlier version kept no note of it
   * @param recordedAt when; empty likewise
   * @param byType type of that fact; empty likewise
   */
  public record Superseded(
      String byFactId,
      String reason,
      Optional<String> recordedBy,
      Optional<Instant> recordedAt,
      Optional<FactType> byType) {
    public Superseded {
      byType = byType == null ? Optional.empty() : byType; // as earlier versions send it
    }

    /**
     * Whether it corrects a fact of one lot or crop by one of another. Who corrects a movement of
     * seed may say that another lot was moved. A withdrawal names none; where the type is not
     * known, neither is that.
     *
     * @param fact the fact that it would correct
     * @param held ids of all facts in a dossier that holds it
     */
    public boolean isOfOtherSubject(SpecificRecord fact, Set<String> held) {
      return byType.filter(type -> type != FactType.WITHDRAWAL).isPresent()
          && !held.contains(byFactId)
          && SubjectsNamed.own(fact).size() == 1;
    }

    /** One of which only the fact and the reason are known. */
    public Superseded(String byFactId, String reason) {
      this(byFactId, reason, Optional.empty(), Optional.empty(), Optional.empty());
    }
  }

  public FactHeader header() {
    return FactType.headerOf(fact);
  }

  public boolean counts() {
    return superseded.isEmpty() && !awaitsConfirmation;
  }
}
