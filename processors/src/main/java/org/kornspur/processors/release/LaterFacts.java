package org.kornspur.processors.release;

import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.SortedSet;
import java.util.TreeSet;
import java.util.function.Function;
import java.util.stream.Stream;
import org.kornspur.contract.Correction;
import org.kornspur.contract.SealedLimit;
import org.kornspur.contract.SealedMaterial;
import org.kornspur.contract.SealedVerdict;
import org.kornspur.contract.Signature;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.statement.Coded;
import org.kornspur.ingest.statement.Statement;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.ingest.statement.Value.Fact;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.Entry;
import org.kornspur.processors.dossier.Trouble;
import org.kornspur.processors.finding.Bound;
import org.kornspur.processors.finding.ReleaseFinding;
import org.kornspur.processors.release.SuspensionReason.RulesChanged;
import org.kornspur.processors.standards.Limit;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Verdict;

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
 * suspended until a person releases it anew, with a seal over both. 21 CFR 11.10(f) asks that no
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
final class LaterFacts {
  private static final Set<FactType> MOVEMENTS =
      Set.of(
          FactType.SOWING,
          FactType.HARVEST,
          FactType.CONDITIONING,
          FactType.LOT_SPLIT,
          FactType.LOT_MERGE,
          FactType.BLEND,
          FactType.ADMIXTURE,
          FactType.DISPATCH);

  private final Dossier dossier;
  private final Signature sealed;
  private final Set<String> sealedFacts;

  /**
   * What suspended a release.
   *
   * @param since when the fact was recorded that did; empty where no fact of the lot itself did
   * @param reasons why, as far as that is kept as data
   */
  record Suspending(
      List<LotRelease.Change> changes,
      List<String> causes,
      Optional<Instant> since,
      Coded why,
      List<SuspensionReason> reasons) {}

  LaterFacts(Dossier dossier, Signature sealed) {
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
  Optional<Suspending> suspending(Assessment now, Function<Dossier, Assessment> assess) {
    List<Set<String>> steps = laterEvidence();
    Set<String> left = new HashSet<>();
    steps.forEach(left::addAll);
    boolean first = true;
    for (Set<String> step : steps) {
      Set<String> without = Set.copyOf(left);
      Assessment then =
          assess.apply(dossier.of(entry -> !without.contains(entry.header().getFactId())));
      if (first ? !stands(then) : then.isUnfit()) {
        return Optional.of(suspendedBy(then));
      }
      first = false;
      left.removeAll(step);
    }
    return stands(now) ? Optional.empty() : Optional.of(suspendedBy(now));
  }

  private boolean stands(Assessment assessment) {
    return assessment.isFit() && Objects.equals(material(assessment), sealed.getMaterial());
  }

  private static SealedMaterial material(Assessment assessment) {
    return assessment.material().map(SealedVerdicts::of).orElse(null);
  }

  /** Facts that were not sealed, are evidence and count, by the time when they were recorded. */
  private List<Set<String>> laterEvidence() {
    Set<String> inPlaceOfSealed = inPlaceOfSealed();
    Map<Instant, Set<String>> byTime = new java.util.TreeMap<>();
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
    return !type.isAct() && !MOVEMENTS.contains(type);
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

  private Suspending suspendedBy(Assessment then) {
    List<LotRelease.Change> changes = changes(then);
    List<RulesChanged> byRules = rulesChanges(then);
    SortedSet<String> causes = new TreeSet<>();
    changes.stream()
        .filter(change -> byRules.stream().noneMatch(rules -> isSame(rules, change)))
        .forEach(
            change ->
                change.factIds().stream()
                    .filter(id -> !sealedFacts.contains(id))
                    .forEach(causes::add));
    dossier.entries().stream()
        .filter(entry -> sealedFacts.contains(entry.header().getFactId()))
        .flatMap(entry -> entry.superseded().stream())
        .map(Entry.Superseded::byFactId)
        .filter(by -> !sealedFacts.contains(by))
        .forEach(causes::add);
    dossier
        .counting()
        .filter(fact -> FactType.of(fact) == FactType.DOWNGRADE)
        .map(fact -> FactType.headerOf(fact).getFactId())
        .filter(id -> !sealedFacts.contains(id))
        .forEach(causes::add);
    return new Suspending(
        changes,
        List.copyOf(causes),
        since(causes),
        why(then, changes, causes, byRules),
        List.copyOf(byRules));
  }

  private List<RulesChanged> rulesChanges(Assessment then) {
    boolean takenBack =
        dossier.entries().stream()
            .filter(entry -> sealedFacts.contains(entry.header().getFactId()))
            .flatMap(entry -> entry.superseded().stream())
            .anyMatch(by -> !sealedFacts.contains(by.byFactId()));
    return new RulesChanges(sealed, sealedFacts, takenBack)
        .among(then, Objects.equals(material(then), sealed.getMaterial()));
  }

  private static boolean isSame(RulesChanged rules, LotRelease.Change change) {
    return change.inheritedFrom().isEmpty()
        && change.gate().equals(rules.gate().name())
        && change.aspect().equals(rules.aspect());
  }

  private Optional<Instant> since(Set<String> causes) {
    Stream<Instant> own =
        dossier.entries().stream()
            .map(Entry::header)
            .filter(header -> causes.contains(header.getFactId()))
            .map(header -> header.getRecordedAt());
    Stream<Instant> takenBack =
        dossier.entries().stream()
            .flatMap(entry -> entry.superseded().stream())
            .filter(by -> causes.contains(by.byFactId()))
            .flatMap(by -> by.recordedAt().stream());
    return Stream.concat(own, takenBack).min(Instant::compareTo);
  }

  /** Verdicts that stand against the lot and did not when it was sealed. */
  private List<LotRelease.Change> changes(Assessment then) {
    Map<List<String>, SealedState> before = new HashMap<>();
    for (SealedVerdict verdict : sealed.getSealedVerdicts()) {
      before.put(
          key(
              verdict.getGate(),
              verdict.getAspect() == null ? "" : verdict.getAspect(),
              verdict.getInheritedFrom() == null ? "" : verdict.getInheritedFrom()),
          SealedState.named(verdict.getState()));
    }
    List<LotRelease.Change> changes = new ArrayList<>();
    for (Verdict verdict : then.verdicts()) {
      SealedState state = SealedState.of(verdict);
      SealedState was =
          before.getOrDefault(key(verdict.gate().name(), verdict.aspect(), ""), SealedState.NONE);
      if (!(verdict instanceof Verdict.Met) && state != was) {
        changes.add(
            new LotRelease.Change(
                verdict.gate().name(),
                verdict.aspect(),
                Optional.empty(),
                was,
                state,
                verdict.factIds(),
                verdict.about(),
                verdict.findings()));
      }
    }
    for (Trouble trouble : then.inherited()) {
      SealedState state = SealedState.of(trouble);
      String origin = trouble.origin().toString();
      SealedState was =
          before.getOrDefault(
              key(trouble.gate().name(), trouble.aspect(), origin), SealedState.NONE);
      if (state != was) {
        changes.add(
            new LotRelease.Change(
                trouble.gate().name(),
                trouble.aspect(),
                Optional.of(origin),
                was,
                state,
                trouble.factIds(),
                trouble.about(),
                trouble.findings()));
      }
    }
    return List.copyOf(changes);
  }

  private static List<String> key(String gate, String aspect, String inheritedFrom) {
    return List.of(gate, aspect, inheritedFrom);
  }

  private Coded why(
      Assessment then,
      List<LotRelease.Change> changes,
      Set<String> causes,
      List<RulesChanged> byRules) {
    if (causes.isEmpty() && !byRules.isEmpty()) {
      return new ReleaseFinding.SuspendedByRules(
              byRules.stream().<Statement>map(rules -> byRules(rules, changes)).toList())
          .coded();
    }
    List<Statement> changed =
        changes.isEmpty()
            ? List.of(
                new ReleaseFinding.OtherSeed(seed(sealed.getMaterial()), seed(material(then))))
            : changes.stream().<Statement>map(LaterFacts::changed).toList();
    return new ReleaseFinding.SuspendedByFacts(changed, Fact.each(causes)).coded();
  }

  private static ReleaseFinding byRules(RulesChanged rules, List<LotRelease.Change> changes) {
    return new ReleaseFinding.OtherLimit(
        rules.gate(),
        changes.stream()
            .filter(change -> isSame(rules, change))
            .flatMap(change -> change.about().stream())
            .findFirst(),
        rules.oldLimit().map(LaterFacts::bound),
        rules.newLimit().map(Bound::of));
  }

  private static Bound bound(SealedLimit limit) {
    Amount value = new Amount(limit.getValue(), limit.getUnit());
    return limit.getSense().equals(Limit.Sense.AT_LEAST.name())
        ? new Bound.AtLeast(value)
        : new Bound.AtMost(value);
  }

  private static ReleaseFinding changed(LotRelease.Change change) {
    return new ReleaseFinding.Changed(
        Gate.valueOf(change.gate()),
        change.about(),
        change.inheritedFrom().map(Subject::parse),
        change.before().name(),
        change.after().name());
  }

  private static ReleaseFinding seed(SealedMaterial material) {
    return material == null
        ? new ReleaseFinding.SeedUnknown()
        : new ReleaseFinding.SeedIs(
            material.getHybridId(),
            material.getSeedId(),
            material.getKind(),
            material.getCategory(),
            material.getCropYear(),
            material.getRulebookId());
  }
}
