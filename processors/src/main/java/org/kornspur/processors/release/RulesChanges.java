package org.kornspur.processors.release;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import org.kornspur.contract.SealedLimit;
import org.kornspur.contract.SealedVerdict;
import org.kornspur.contract.Signature;
import org.kornspur.processors.release.SuspensionReason.RulesChanged;
import org.kornspur.processors.standards.Limit;
import org.kornspur.processors.standards.RulesFingerprint;
import org.kornspur.processors.verdict.Measured;
import org.kornspur.processors.verdict.Verdict;

/**
 * Which own verdicts of a lot are others than those of its release because the rules are. Whatever
 * can be told apart is: a verdict changed by the rules if what was found would still hold under the
 * limit that was sealed, or if it rests on nothing but facts that were sealed.
 *
 * <p>What comes from ancestors is not looked at: their facts are not in the dossier, so nothing
 * here tells a fact that came later from a limit that changed.
 *
 * @param sealed signature of the release
 * @param sealedFacts ids of the facts that it covers
 * @param evidenceTakenBack whether one of these facts was withdrawn or corrected since
 */
record RulesChanges(Signature sealed, Set<String> sealedFacts, boolean evidenceTakenBack) {
  /**
   * The verdicts that stand against the lot now, did not when it was released, and changed with the
   * rules.
   *
   * @param sameSeed whether it is the same seed in the same category; else other limits apply to it
   *     without any change of the rules
   */
  List<RulesChanged> among(Assessment now, boolean sameSeed) {
    List<RulesChanged> found = new ArrayList<>();
    if (!sameSeed || rulesAreTheSame(now)) {
      return found;
    }
    for (Verdict verdict : now.verdicts()) {
      Optional<SealedVerdict> before = sealedFor(verdict);
      SealedState was =
          before.map(SealedVerdict::getState).map(SealedState::named).orElse(SealedState.NONE);
      SealedState is = SealedState.of(verdict);
      Optional<SealedLimit> oldLimit = before.map(SealedVerdict::getLimit);
      if (!(verdict instanceof Verdict.Met)
          && is != was
          && (heldBefore(verdict, oldLimit) || isOfRulesAlone(verdict, now))) {
        found.add(
            new RulesChanged(verdict.gate(), verdict.aspect(), was, is, oldLimit, verdict.limit()));
      }
    }
    return found;
  }

  private boolean rulesAreTheSame(Assessment now) {
    return now.rules().map(RulesFingerprint::hex).equals(Optional.ofNullable(sealed.getRules()));
  }

  private Optional<SealedVerdict> sealedFor(Verdict verdict) {
    return sealed.getSealedVerdicts().stream()
        .filter(before -> before.getInheritedFrom() == null)
        .filter(before -> before.getGate().equals(verdict.gate().name()))
        .filter(
            before -> Objects.requireNonNullElse(before.getAspect(), "").equals(verdict.aspect()))
        .findFirst();
  }

  /** Whether what is found now would have been met under the limit that was sealed. */
  private static boolean heldBefore(Verdict verdict, Optional<SealedLimit> oldLimit) {
    Optional<Measured> measured = SealedVerdicts.measured(verdict);
    return verdict instanceof Verdict.NotMet
        && oldLimit.isPresent()
        && measured.isPresent()
        && isAnother(oldLimit.get(), verdict.limit())
        && holds(oldLimit.get(), measured.get());
  }

  private static boolean isAnother(SealedLimit before, Optional<Limit> now) {
    return now.map(
            limit ->
                limit.value() != before.getValue()
                    || !limit.sense().name().equals(before.getSense()))
        .orElse(true);
  }

  private static boolean holds(SealedLimit limit, Measured measured) {
    return limit.getUnit().equals(measured.unit())
        && (limit.getSense().equals(Limit.Sense.AT_LEAST.name())
            ? measured.value() >= limit.getValue()
            : measured.value() <= limit.getValue());
  }

  /**
   * Whether nothing but the rules can have changed the verdict. Where an earlier release sealed no
   * fingerprint and the edition is the same, evidence that is owed may also be missing because a
   * parent tells something else now.
   */
  private boolean isOfRulesAlone(Verdict verdict, Assessment now) {
    boolean otherRules = sealed.getRules() != null || hasOtherEdition(now);
    return !evidenceTakenBack
        && sealedFacts.containsAll(verdict.factIds())
        && (otherRules || verdict instanceof Verdict.NotMet);
  }

  private boolean hasOtherEdition(Assessment now) {
    return !now.rulebook()
        .map(Assessment.Book::edition)
        .equals(Optional.ofNullable(sealed.getRulebookEdition()));
  }
}
