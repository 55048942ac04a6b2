package org.kornspur.processors.release;

import java.time.Instant;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.SortedSet;
import java.util.TreeSet;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.kornspur.contract.Downgrade;
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
import org.kornspur.processors.finding.Bound;
import org.kornspur.processors.finding.ReleaseFinding;
import org.kornspur.processors.release.SuspensionReason.RulesChanged;
import org.kornspur.processors.standards.Limit;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Verdict;

/**
 * How it is told that a release was taken back: which verdicts changed, which facts or rules did
 * it, and since when.
 */
final class SuspensionExplanation {
  private final Dossier dossier;
  private final Signature sealed;
  private final Set<String> sealedFacts;
  private final Function<Dossier, Assessment> assess;

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

  /**
   * @param assess what the gates say of any part of the dossier
   */
  SuspensionExplanation(Dossier dossier, Signature sealed, Function<Dossier, Assessment> assess) {
    this.dossier = dossier;
    this.sealed = sealed;
    this.sealedFacts = Set.copyOf(sealed.getSealedFactIds());
    this.assess = assess;
  }

  /** Whether a release stands: the lot is fit, and still the same seed in the same category. */
  boolean stands(Assessment assessment) {
    return assessment.isFit() && Objects.equals(material(assessment), sealed.getMaterial());
  }

  private static SealedMaterial material(Assessment assessment) {
    return assessment.material().map(SealedVerdicts::of).orElse(null);
  }

  /**
   * What is told of it.
   *
   * @param then what the gates say when the release no longer stands
   * @param added facts whose coming did it; empty where it was none of the later evidence
   */
  Suspending by(Assessment then, Set<String> added) {
    List<LotRelease.Change> changes = changes(then);
    List<RulesChanged> byRules = rulesChanges(then);
    SortedSet<String> causes = new TreeSet<>();
    changes.stream()
        .filter(change -> byRules.stream().noneMatch(rules -> isSame(rules, change)))
        .flatMap(change -> change.factIds().stream())
        .filter(id -> !sealedFacts.contains(id))
        .filter(id -> added.isEmpty() || added.contains(id))
        .forEach(causes::add);
    if (added.isEmpty() || causes.isEmpty()) {
      causes.addAll(takingBack());
      causes.addAll(downgrades());
    }
    if (causes.isEmpty() && byRules.isEmpty()) {
      causes.addAll(added);
    }
    return new Suspending(
        changes,
        List.copyOf(causes),
        since(causes),
        why(then, changes, causes, byRules),
        List.copyOf(byRules));
  }

  /**
   * What took sealed facts back: those alone without which the release would stand, if there are
   * such; else all.
   */
  private Set<String> takingBack() {
    List<Entry> takenBack =
        dossier.entries().stream()
            .filter(entry -> sealedFacts.contains(entry.header().getFactId()))
            .filter(entry -> entry.superseded().isPresent())
            .filter(entry -> !sealedFacts.contains(by(entry)))
            .toList();
    Set<String> all = takenBack.stream().map(SuspensionExplanation::by).collect(Collectors.toSet());
    if (all.size() < 2) {
      return all;
    }
    Set<String> alone =
        takenBack.stream()
            .filter(entry -> stands(assess.apply(asIfNotTakenBack(entry))))
            .map(SuspensionExplanation::by)
            .collect(Collectors.toSet());
    return alone.isEmpty() ? all : alone;
  }

  private Dossier asIfNotTakenBack(Entry entry) {
    return new Dossier(
        dossier.subject(),
        dossier.entries().stream()
            .filter(other -> !other.header().getFactId().equals(by(entry)))
            .map(other -> other.equals(entry) ? new Entry(entry.fact(), Optional.empty()) : other)
            .toList(),
        dossier.reports());
  }

  private static String by(Entry takenBack) {
    return takenBack.superseded().orElseThrow().byFactId();
  }

  private List<String> downgrades() {
    return dossier.facts(Downgrade.class).stream()
        .map(FactType::idOf)
        .filter(id -> !sealedFacts.contains(id))
        .toList();
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
          List.of(
              verdict.getGate(),
              Objects.requireNonNullElse(verdict.getAspect(), ""),
              Objects.requireNonNullElse(verdict.getInheritedFrom(), "")),
          SealedState.named(verdict.getState()));
    }
    Stream<LotRelease.Change> own =
        then.verdicts().stream()
            .filter(verdict -> !(verdict instanceof Verdict.Met))
            .map(
                verdict ->
                    new LotRelease.Change(
                        verdict.gate().name(),
                        verdict.aspect(),
                        Optional.empty(),
                        was(before, verdict.gate(), verdict.aspect(), ""),
                        SealedState.of(verdict),
                        verdict.factIds(),
                        verdict.about(),
                        verdict.findings()));
    Stream<LotRelease.Change> inherited =
        then.inherited().stream()
            .map(
                trouble ->
                    new LotRelease.Change(
                        trouble.gate().name(),
                        trouble.aspect(),
                        Optional.of(trouble.origin().toString()),
                        was(before, trouble.gate(), trouble.aspect(), trouble.origin().toString()),
                        SealedState.of(trouble),
                        trouble.factIds(),
                        trouble.about(),
                        trouble.findings()));
    return Stream.concat(own, inherited)
        .filter(change -> change.before() != change.after())
        .toList();
  }

  private static SealedState was(
      Map<List<String>, SealedState> before, Gate gate, String aspect, String inheritedFrom) {
    return before.getOrDefault(List.of(gate.name(), aspect, inheritedFrom), SealedState.NONE);
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
            : changes.stream().<Statement>map(SuspensionExplanation::changed).toList();
    return new ReleaseFinding.SuspendedByFacts(changed, Fact.each(causes)).coded();
  }

  private static ReleaseFinding byRules(RulesChanged rules, List<LotRelease.Change> changes) {
    return new ReleaseFinding.OtherLimit(
        rules.gate(),
        changes.stream()
            .filter(change -> isSame(rules, change))
            .flatMap(change -> change.about().stream())
            .findFirst(),
        rules.oldLimit().map(SuspensionExplanation::bound),
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
