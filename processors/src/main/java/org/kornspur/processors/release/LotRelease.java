package org.kornspur.processors.release;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.kornspur.contract.Category;
import org.kornspur.ingest.statement.Coded;

/**
 * What persons' acts and the facts since have made of a lot's release.
 *
 * @param step how far it is
 * @param since when that step was reached; empty where it is not known
 * @param signatures those that the step rests on; of a suspended release those that had released it
 * @param signaturesNeeded persons who must sign before it is released
 * @param why why it is suspended or condemned
 * @param causes facts that suspended it by themselves
 * @param changes verdicts that are no longer what they were when it was released
 * @param downgradedFrom category that it was made for, where a person put it into a lower one
 * @param dispatchedUnreleasedKg mass that left for customers while it was not released, kilograms
 * @param usedUnreleasedKg mass that was sown or mixed while it was not released, kilograms
 * @param reasons why it was suspended by itself, as far as that is kept as data
 */
public record LotRelease(
    Step step,
    Optional<Instant> since,
    List<Signed> signatures,
    int signaturesNeeded,
    Optional<Coded> why,
    List<String> causes,
    List<Change> changes,
    Optional<Category> downgradedFrom,
    double dispatchedUnreleasedKg,
    double usedUnreleasedKg,
    List<SuspensionReason> reasons) {

  /** The release of what nobody signed for. */
  static final LotRelease NOTHING = unsigned(Step.NONE, Optional.empty());

  /** The release of a lot of which it could not be told; the lot is held back. */
  static LotRelease untold(Coded why) {
    return unsigned(Step.SUSPENDED, Optional.of(why));
  }

  private static LotRelease unsigned(Step step, Optional<Coded> why) {
    return new LotRelease(
        step,
        Optional.empty(),
        List.of(),
        1,
        why,
        List.of(),
        List.of(),
        Optional.empty(),
        0,
        0,
        List.of());
  }

  /** How far a release is. */
  public enum Step {
    /** Nobody released it. */
    NONE,
    /** One person has signed what still is so; the two-person rule waits for another. */
    PROPOSED,
    RELEASED,
    /** It was released and is held back, by a person or by a later fact. */
    SUSPENDED,
    /** A person rejected it for good. */
    CONDEMNED
  }

  /** A person's signature. */
  public record Signed(
      String actId,
      String kind,
      String signerId,
      String meaning,
      String reason,
      Instant signedAt,
      String seal) {}

  /**
   * A verdict that changed.
   *
   * @param inheritedFrom the ancestor that it comes from; empty where it is the lot's own
   * @param factIds facts that it rests on now
   * @param about the aspect as it is shown; empty where the gate has one verdict
   * @param findings the verdict as it is now
   */
  public record Change(
      String gate,
      String aspect,
      Optional<String> inheritedFrom,
      SealedState before,
      SealedState after,
      List<String> factIds,
      Optional<Coded> about,
      List<Coded> findings) {}

  /** Nobody did anything, and nothing left. */
  public boolean isEmpty() {
    return step == Step.NONE
        && downgradedFrom.isEmpty()
        && dispatchedUnreleasedKg == 0
        && usedUnreleasedKg == 0;
  }
}
