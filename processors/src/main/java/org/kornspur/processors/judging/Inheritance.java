package org.kornspur.processors.judging;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.InheritedFinding;
import org.kornspur.processors.dossier.Report;
import org.kornspur.processors.finding.Fault;
import org.kornspur.processors.gates.OwedForFailedPart;
import org.kornspur.processors.gates.OwnComposition;
import org.kornspur.processors.gates.SameSeed;
import org.kornspur.processors.standards.Rulebook;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Verdict;

/**
 * What passes down the pedigree.
 *
 * <p>Every trouble travels with the path that it took; of several paths from one origin a subject
 * keeps the shortest, by text where equally long. So a trouble reaches each descendant once and
 * leaves again when its origin mends. Where wrong facts make a circle, its members are condemned
 * for the circle and pass nothing else to each other, so that the exchange of reports comes to
 * rest.
 */
final class Inheritance {
  /**
   * Most troubles of one weight and gate that are passed on: the first by aspect and origin. One is
   * enough to condemn or to hold up; more only say what else is to be mended, and seed of thousands
   * of lots would carry all of them to every descendant.
   */
  private static final int MOST_OF_A_GATE = 50;

  /** Ancestors that are reported, the nearest; among those beyond them no circle is seen. */
  private static final int MOST_ANCESTORS = 5_000;

  private static final Comparator<InheritedFinding> SHORTEST_PATH_FIRST =
      Comparator.comparingInt((InheritedFinding trouble) -> trouble.path().size())
          .thenComparing(trouble -> trouble.path().toString())
          .thenComparing(trouble -> trouble.factIds().toString())
          .thenComparing(trouble -> trouble.findings().toString());

  private static final Comparator<InheritedFinding> BY_GATE_AND_ORIGIN =
      Comparator.comparing(InheritedFinding::weight)
          .thenComparing(InheritedFinding::gate)
          .thenComparing(InheritedFinding::aspect)
          .thenComparing(InheritedFinding::origin);

  private Inheritance() {}

  /**
   * What a subject takes over from its parents.
   *
   * @param rulebook by which it is judged
   * @param judged what its own gates say, which may settle what was sown
   */
  static List<InheritedFinding> inheritedBy(
      Dossier dossier, Optional<? extends Rulebook> rulebook, List<Verdict> judged) {
    Stream<InheritedFinding> candidates =
        dossier.parents().stream()
            .filter(parent -> !parent.closesCircle())
            .flatMap(
                report ->
                    Stream.concat(report.troubles().stream(), SownSeed.untested(report, dossier))
                        .filter(trouble -> !trouble.path().contains(dossier.subject()))
                        .filter(trouble -> !OwedForFailedPart.isToldByTests(trouble, dossier))
                        .filter(
                            trouble -> !OwnComposition.settles(trouble, dossier, rulebook, judged))
                        .flatMap(
                            trouble -> reaching(trouble, dossier, report.parent(), judged).stream())
                        .map(
                            trouble ->
                                MixedSeedInheritance.withShare(trouble, dossier, report.parent())));
    return oneOfEach(candidates);
  }

  /** Of several paths from one origin the shortest, and no more of a gate than are passed on. */
  static List<InheritedFinding> oneOfEach(Stream<InheritedFinding> candidates) {
    return cut(oneFromEachOrigin(candidates));
  }

  /** What a subject passes on: what it inherited and what it fails or owes itself. */
  static List<InheritedFinding> passedOnBy(
      Dossier dossier, List<Verdict> verdicts, List<InheritedFinding> inherited) {
    List<InheritedFinding> own =
        verdicts.stream().flatMap(verdict -> own(dossier.subject(), verdict).stream()).toList();
    List<InheritedFinding> passed = new ArrayList<>(own);
    inherited.forEach(trouble -> passed.add(furtherAlong(trouble, dossier.subject())));
    passed.sort(BY_GATE_AND_ORIGIN);
    return cut(passed);
  }

  /** What a subject passes on where that itself cannot be told: no child is better off for it. */
  static List<InheritedFinding> passedOnForFaults(
      Subject subject, List<Fault> faults, List<InheritedFinding> inherited) {
    return Stream.concat(
            inherited.stream(),
            faults.stream()
                .map(fault -> trouble(subject, fault.verdict(), InheritedFinding.Weight.OWED)))
        .toList();
  }

  /** Ancestors of a subject, and how many steps above it each stands. */
  static SortedMap<String, Integer> ancestorsOf(Dossier dossier) {
    SortedMap<String, Integer> ancestors = new TreeMap<>();
    for (Report.FromParent report : dossier.parents()) {
      ancestors.merge(report.parent().toString(), 1, Math::min);
      report
          .ancestors()
          .forEach(
              (ancestor, steps) -> {
                if (steps < Dossier.MOST_STEPS) {
                  ancestors.merge(ancestor, steps + 1, Math::min);
                }
              });
    }
    return ancestors.size() > MOST_ANCESTORS ? nearest(ancestors) : ancestors;
  }

  private static SortedMap<String, Integer> nearest(SortedMap<String, Integer> ancestors) {
    SortedMap<String, Integer> kept = new TreeMap<>();
    ancestors.entrySet().stream()
        .sorted(
            Map.Entry.<String, Integer>comparingByValue().thenComparing(Map.Entry.comparingByKey()))
        .limit(MOST_ANCESTORS)
        .forEach(ancestor -> kept.put(ancestor.getKey(), ancestor.getValue()));
    return kept;
  }

  /** What comes first of all that the parents have comes first of what each has: so it is kept. */
  private static List<InheritedFinding> cut(List<InheritedFinding> sorted) {
    Map<List<Object>, Integer> taken = new HashMap<>();
    return sorted.stream()
        .filter(
            trouble ->
                taken.merge(List.of(trouble.weight(), trouble.gate()), 1, Integer::sum)
                    <= MOST_OF_A_GATE)
        .toList();
  }

  private static Optional<InheritedFinding> reaching(
      InheritedFinding trouble, Dossier receiver, Subject parent, List<Verdict> judged) {
    boolean intoCrop = receiver.subject().kind() == Subject.Kind.CROP;
    return switch (trouble.gate().reach()) {
      case EVERY_DESCENDANT, CERTIFIED_DESCENDANTS -> Optional.of(trouble);
      case UNTIL_SOWN -> intoCrop ? SownSeed.inCrop(trouble, judged) : Optional.of(trouble);
      case UNTIL_CONDITIONED ->
          intoCrop
              ? SownSeed.inCrop(trouble, judged)
              : Optional.of(trouble)
                  .filter(
                      goes ->
                          SownSeed.wasSown(goes)
                              || MixedSeedInheritance.isSameSeed(goes.gate(), receiver, parent));
      case OWN -> Optional.empty();
    };
  }

  private static List<InheritedFinding> oneFromEachOrigin(Stream<InheritedFinding> candidates) {
    Map<List<Object>, List<InheritedFinding>> byOrigin =
        candidates.collect(
            Collectors.groupingBy(
                trouble ->
                    List.of(trouble.gate(), trouble.aspect(), trouble.weight(), trouble.origin())));
    Collection<List<InheritedFinding>> groups = byOrigin.values();
    return groups.stream()
        .map(group -> group.stream().min(SHORTEST_PATH_FIRST).orElseThrow())
        .sorted(BY_GATE_AND_ORIGIN)
        .toList();
  }

  private static List<InheritedFinding> own(Subject subject, Verdict verdict) {
    if (verdict.gate().reach() == Gate.Reach.OWN) {
      return List.of();
    }
    if (verdict instanceof Verdict.NotMet) {
      return List.of(trouble(subject, verdict, InheritedFinding.Weight.CONDEMNS));
    }
    boolean isTold =
        verdict.gate().reach() != Gate.Reach.UNTIL_CONDITIONED || SameSeed.goesAlong(verdict);
    if (verdict instanceof Verdict.Owed && isTold) {
      return List.of(trouble(subject, verdict, InheritedFinding.Weight.OWED));
    }
    return List.of();
  }

  static InheritedFinding trouble(
      Subject subject, Verdict verdict, InheritedFinding.Weight weight) {
    return new InheritedFinding(
        verdict.gate(),
        verdict.aspect(),
        verdict.about(),
        weight,
        subject,
        List.of(subject),
        verdict.factIds(),
        verdict.findings());
  }

  /** The same with one more on its path. */
  static InheritedFinding furtherAlong(InheritedFinding trouble, Subject subject) {
    List<Subject> path = new ArrayList<>(trouble.path());
    path.add(subject);
    return trouble.along(path);
  }
}
