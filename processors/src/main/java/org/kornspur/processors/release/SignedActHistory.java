package org.kornspur.processors.release;

import static java.util.stream.Collectors.toCollection;
import static java.util.stream.Collectors.toSet;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.pedigree.Edge;

/**
 * The acts on one lot, taken in the order in which they were signed, then of their ids; never in
 * that in which they arrived. An act that sealed another follows it whatever the times say, for the
 * clock may have been set back between them. Out of it comes what persons decided, before any look
 * at the facts.
 *
 * <ul>
 *   <li>A release counts once as many different persons as it asks for have signed the same seal.
 *   <li>A suspension holds back what was released and what was proposed before it, and only a
 *       release whose signer saw it ends it. The order in which two servers sign, and how far one
 *       is behind, is no evidence of what a signer knew; what is sealed is.
 *   <li>A condemnation stays, whatever release is signed later, until an act corrects it.
 *   <li>A downgrade ends a proposal: what the first person signed was another category.
 * </ul>
 *
 * <p>Source: 21 CFR 11.10(f), permitted sequencing of steps.
 */
final class SignedActHistory {
  private List<SignedAct> released = List.of();
  private Optional<SignedAct> proposed = Optional.empty();
  private Optional<SignedAct> suspended = Optional.empty();
  private Optional<SignedAct> condemned = Optional.empty();
  private final List<Period> periods = new ArrayList<>();

  /** A time in which the lot was released by persons; open at its end while it still is. */
  private record Period(Instant from, Optional<Instant> until) {
    boolean holds(Instant time) {
      return !time.isBefore(from) && until.map(time::isBefore).orElse(true);
    }
  }

  private SignedActHistory() {}

  static SignedActHistory of(Dossier dossier) {
    SignedActHistory sequence = new SignedActHistory();
    List<SignedAct> acts =
        dossier
            .counting()
            .flatMap(fact -> SignedAct.of(fact).stream())
            .collect(toCollection(ArrayList::new));
    Set<String> left = acts.stream().map(SignedActHistory::idOf).collect(toSet());
    while (!acts.isEmpty()) {
      SignedAct next =
          acts.stream().filter(act -> sawNone(act, left)).findFirst().orElse(acts.get(0));
      acts.remove(next);
      left.remove(idOf(next));
      sequence.take(next);
    }
    return sequence;
  }

  private static String idOf(SignedAct act) {
    return act.header().getFactId();
  }

  private static boolean sawNone(SignedAct act, Set<String> others) {
    return act.signature().getSealedFactIds().stream()
        .noneMatch(seen -> others.contains(seen) && !seen.equals(idOf(act)));
  }

  private void take(SignedAct act) {
    switch (act.kind()) {
      case RELEASE -> release(act);
      case SUSPEND -> {
        suspended = Optional.of(act);
        proposed = Optional.empty();
        end(act);
      }
      case CONDEMN -> {
        condemned = Optional.of(act);
        proposed = Optional.empty();
        end(act);
      }
      case DOWNGRADE -> {
        proposed = Optional.empty();
        end(act);
      }
    }
  }

  private void release(SignedAct act) {
    if (condemned.isPresent() || !sawSuspension(act)) {
      return;
    }
    boolean alone = act.signature().getSignaturesNeeded() < 2;
    if (alone || proposed.filter(first -> isSecondOf(first, act)).isPresent()) {
      released = alone ? List.of(act) : List.of(proposed.orElseThrow(), act);
      suspended = Optional.empty();
      proposed = Optional.empty();
      end(act);
      periods.add(new Period(act.signature().getSignedAt(), Optional.empty()));
    } else if (proposed.filter(first -> hasSameSeal(first, act)).isEmpty()) {
      proposed = Optional.of(act);
    }
  }

  private boolean sawSuspension(SignedAct release) {
    return suspended
        .map(act -> release.signature().getSealedFactIds().contains(act.header().getFactId()))
        .orElse(true);
  }

  private static boolean isSecondOf(SignedAct first, SignedAct second) {
    return hasSameSeal(first, second)
        && !first.signature().getSignerId().equals(second.signature().getSignerId());
  }

  private static boolean hasSameSeal(SignedAct first, SignedAct second) {
    return first.signature().getSeal().equals(second.signature().getSeal());
  }

  private void end(SignedAct act) {
    int last = periods.size() - 1;
    if (last >= 0 && periods.get(last).until().isEmpty()) {
      periods.set(
          last, new Period(periods.get(last).from(), Optional.of(act.signature().getSignedAt())));
    }
  }

  /** The releases that took effect last, one or two; empty if none ever did. */
  List<SignedAct> released() {
    return released;
  }

  /** A first signature that waits for a second. */
  Optional<SignedAct> proposed() {
    return proposed;
  }

  /** The suspension after which no release took effect. */
  Optional<SignedAct> suspended() {
    return suspended;
  }

  Optional<SignedAct> condemned() {
    return condemned;
  }

  /** Mass dispatched at times when no release was in effect, kilograms. */
  double dispatchedUnreleasedKg(Dossier dossier) {
    return unreleasedKg(dossier, Set.of(FactType.DISPATCH));
  }

  /** Mass sown or mixed at such times, kilograms. */
  double usedUnreleasedKg(Dossier dossier) {
    return unreleasedKg(dossier, Set.of(FactType.SOWING, FactType.BLEND, FactType.ADMIXTURE));
  }

  private double unreleasedKg(Dossier dossier, Set<FactType> by) {
    return dossier.edgesOut().stream()
        .filter(edge -> by.contains(edge.by()))
        .filter(edge -> periods.stream().noneMatch(period -> period.holds(edge.happenedAt())))
        .mapToDouble(Edge::massKg)
        .sum();
  }
}
