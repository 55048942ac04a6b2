package org.kornspur.processors.release;

import java.time.Instant;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.kornspur.contract.Correction;
import org.kornspur.contract.Signature;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.Entry;

/**
 * Whether facts that came after a release took it back.
 *
 * <p>A release is suspended by itself when the lot is no longer fit, or no longer the same seed in
 * the same category under the same rulebook. A later fact that leaves it fit (a second good test, a
 * dispatch) changes nothing.
 *
 * <p><b>Whether it heals.</b> Where the fact that did it is withdrawn or corrected, so that it
 * never was so, the release that a person signed stands again: his seal covers what is true now as
 * it did then, and nothing can tell the case from one in which the fact and its withdrawal came in
 * the other order. Where new evidence speaks against it (a failed test, then a passed one), both
 * are true, and weighing one against the other is what the signature is for: the lot stays
 * suspended until a person releases it again, with a seal over both. 21 CFR 11.10(f) asks that no
 * step be left out; the trade does not let a retest put seed back on sale by itself (common
 * practice, no source).
 *
 * <p>To know of such a failure the later evidence is added step by step, in the order in which it
 * was recorded, and judged after each step: without any of it the lot must be fit, else a fact that
 * was sealed was taken back and other evidence put in its stead; after each further step it must
 * not be unfit. That evidence is owed between two steps means only that one of them came first.
 * Movements of seed are not taken in steps: delivery notes come in any order, and only their sum
 * says anything. What ancestors and the ground report is taken as it is now: a fault of an ancestor
 * that has gone is gone, because his dossier tells no past.
 */
final class SuspensionRule {
  private final Dossier dossier;
  private final Signature sealed;
  private final Set<String> sealedFacts;

  SuspensionRule(Dossier dossier, Signature sealed) {
    this.dossier = dossier;
    this.sealed = sealed;
    this.sealedFacts = Set.copyOf(sealed.getSealedFactIds());
  }

  /**
   * What took the release back; empty if it stands.
   *
   * @param now what the gates say of the whole dossier
   * @param assess what they say of any part of it
   */
  Optional<SuspensionExplanation.Suspending> suspending(
      Assessment now, Function<Dossier, Assessment> assess) {
    SuspensionExplanation told = new SuspensionExplanation(dossier, sealed, assess);
    List<Set<String>> steps = laterEvidence();
    Set<String> all = union(steps);
    Set<String> left = new HashSet<>(all);
    Set<String> added = Set.of();
    for (Set<String> step : steps) {
      Assessment then = assess.apply(without(left));
      if (added.isEmpty() ? !told.stands(then) : then.isUnfit()) {
        return Optional.of(told.by(then, added));
      }
      left.removeAll(step);
      added = step;
    }
    if (!told.stands(now)) {
      return Optional.of(told.by(now, added));
    }
    return all.size() < 2 ? Optional.empty() : byOneAlone(all, told, assess);
  }

  /**
   * One later fact that alone makes the lot unfit. The time of recording is what its sender claims:
   * a good test that claims to be older than a bad one must not hide it.
   */
  private Optional<SuspensionExplanation.Suspending> byOneAlone(
      Set<String> all, SuspensionExplanation told, Function<Dossier, Assessment> assess) {
    for (String alone : new TreeSet<>(all)) {
      Set<String> others = new HashSet<>(all);
      others.remove(alone);
      Assessment then = assess.apply(without(others));
      if (then.isUnfit()) {
        return Optional.of(told.by(then, Set.of(alone)));
      }
    }
    return Optional.empty();
  }

  private static Set<String> union(List<Set<String>> steps) {
    return steps.stream().flatMap(Set::stream).collect(Collectors.toSet());
  }

  private Dossier without(Set<String> factIds) {
    Set<String> out = Set.copyOf(factIds);
    return dossier.of(entry -> !out.contains(entry.header().getFactId()));
  }

  /** Facts that were not sealed, are evidence and count, by the time when they were recorded. */
  private List<Set<String>> laterEvidence() {
    Set<String> inPlaceOfSealed = inPlaceOfSealed();
    Map<Instant, Set<String>> byTime = new TreeMap<>();
    dossier.entries().stream()
        .filter(Entry::counts)
        .filter(entry -> isEvidence(FactType.of(entry.fact())))
        .filter(entry -> !sealedFacts.contains(entry.header().getFactId()))
        .filter(entry -> !inPlaceOfSealed.contains(entry.header().getFactId()))
        .forEach(
            entry ->
                byTime
                    .computeIfAbsent(entry.header().getRecordedAt(), time -> new HashSet<>())
                    .add(entry.header().getFactId()));
    return List.copyOf(byTime.values());
  }

  private static boolean isEvidence(FactType type) {
    return !type.isAct() && type.movement().isEmpty();
  }

  /**
   * Corrections of sealed facts, and corrections of these: they are the same evidence, put right.
   */
  private Set<String> inPlaceOfSealed() {
    Map<String, String> corrects = new HashMap<>();
    dossier
        .entries()
        .forEach(
            entry -> {
              Correction correction = entry.header().getCorrection();
              if (correction != null) {
                corrects.put(entry.header().getFactId(), correction.getSupersedes());
              }
            });
    Set<String> found = new HashSet<>();
    corrects.keySet().stream().filter(id -> leadsToSealed(id, corrects)).forEach(found::add);
    return found;
  }

  private boolean leadsToSealed(String factId, Map<String, String> corrects) {
    Set<String> seen = new HashSet<>();
    String at = factId;
    while (at != null && seen.add(at)) {
      if (sealedFacts.contains(at)) {
        return true;
      }
      at = corrects.get(at);
    }
    return false;
  }
}
