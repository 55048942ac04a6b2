package org.kornspur.processors.judging;

import java.util.Comparator;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.function.Function;
import java.util.stream.Stream;
import org.kornspur.contract.Category;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.statement.Coded;
import org.kornspur.ingest.statement.Value;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.InheritedFinding;
import org.kornspur.processors.dossier.Material;
import org.kornspur.processors.dossier.SeedMeasures;
import org.kornspur.processors.finding.Advice;
import org.kornspur.processors.finding.Aspect;
import org.kornspur.processors.finding.ComponentsFinding.CategoryTooLow;
import org.kornspur.processors.finding.Evidence;
import org.kornspur.processors.finding.Fault;
import org.kornspur.processors.finding.Finding;
import org.kornspur.processors.finding.OriginFinding;
import org.kornspur.processors.gates.BeyondLimits;
import org.kornspur.processors.gates.BlendMeasures;
import org.kornspur.processors.gates.Condemned;
import org.kornspur.processors.gates.ConflictingCorrections;
import org.kornspur.processors.gates.GateRule;
import org.kornspur.processors.gates.MissingLimits;
import org.kornspur.processors.gates.OwnAncestor;
import org.kornspur.processors.gates.UnprovenSenders;
import org.kornspur.processors.ground.Plot;
import org.kornspur.processors.release.Assessment;
import org.kornspur.processors.standards.Rulebook;
import org.kornspur.processors.standards.RulesFingerprint;
import org.kornspur.processors.verdict.Fitness;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.RuleNote;
import org.kornspur.processors.verdict.Verdict;

/** What the gates say of a crop or lot, before any question of release. */
final class Assessor {
  private static final Comparator<Verdict> BY_GATE_AND_ASPECT =
      Comparator.comparing(Verdict::gate).thenComparing(Verdict::aspect);

  private static final Set<Gate> NOT_TRUE_TO_NAME =
      EnumSet.of(Gate.OFF_TYPES, Gate.COMPONENTS, Gate.SHEDDING_FEMALES, Gate.CONDEMNATION);

  private final Function<String, Optional<? extends Rulebook>> rulebooks;
  private final List<GateRule> gates;
  private final RulesFingerprint rules;

  Assessor(
      Function<String, Optional<? extends Rulebook>> rulebooks,
      List<GateRule> gates,
      RulesFingerprint rules) {
    this.rulebooks = rulebooks;
    this.gates = gates;
    this.rules = rules;
  }

  /** What is said of seed, and what others are told of it, before any question of release. */
  record Assessed(
      Assessment assessment,
      List<InheritedFinding> passedOn,
      SortedMap<String, Integer> ancestors,
      SeedMeasures measures,
      Optional<Plot> place,
      List<RuleNote> notes) {}

  Assessed assess(Dossier dossier) {
    GuardedSteps attempts = new GuardedSteps(dossier);
    Optional<Material> material = dossier.material();
    Optional<? extends Rulebook> rulebook = rulebookOf(material);
    List<Verdict> judged =
        Stream.of(
                verdicts(dossier, material, rulebook, attempts),
                attempts.verdicts(Gate.CONDEMNATION, Condemned::judge),
                attempts.verdicts(Gate.ORIGIN, UnprovenSenders::judge),
                attempts.verdicts(Gate.ORIGIN, ConflictingCorrections::judge),
                attempts.verdicts(Gate.ORIGIN, seed -> BeyondLimits.judge(seed).stream().toList()))
            .flatMap(List::stream)
            .toList();
    List<InheritedFinding> inherited =
        attempts.get(
            Gate.ORIGIN,
            "inheritance",
            seed -> Inheritance.inheritedBy(seed, rulebook, judged),
            List::of);
    SortedMap<String, Integer> ancestors =
        attempts.get(Gate.ORIGIN, "ancestors", Inheritance::ancestorsOf, TreeMap::new);
    SeedMeasures measures =
        attempts.get(
            Gate.ORIGIN,
            "measures",
            seed -> BlendMeasures.of(seed, rulebook, judged),
            SeedMeasures::none);
    Optional<Plot> place =
        place(dossier, attempts)
            .map(plot -> isForeignToItsOwn(judged) ? plot.withTooManyOffTypes() : plot);
    List<RuleNote> notes =
        attempts.get(
            Gate.ORIGIN,
            "rules",
            seed -> rulebook.map(book -> MissingLimits.notes(seed, book)).orElse(List.of()),
            List::of);
    List<Verdict> before = withFaults(judged, attempts);
    List<InheritedFinding> passedOn =
        attempts.get(
            Gate.ORIGIN,
            "inheritance",
            seed -> Inheritance.passedOnBy(seed, before, inherited),
            () -> Inheritance.passedOnForFaults(dossier.subject(), attempts.faults(), inherited));
    List<Verdict> verdicts = withFaults(judged, attempts);
    Assessment assessment =
        new Assessment(
            state(material, verdicts, inherited, attempts.faults()),
            material,
            rulebook.map(book -> new Assessment.Book(book.id(), book.edition())),
            verdicts,
            inherited,
            attempts.faults(),
            Optional.of(rules));
    return new Assessed(assessment, passedOn, ancestors, measures, place, notes);
  }

  /** Where the latest place cannot be made out, the one before still sheds pollen. */
  static Optional<Plot> place(Dossier dossier, GuardedSteps attempts) {
    return attempts.get(Gate.ISOLATION, "place", Plots::of, () -> Plots.ofWhatCanBePlaced(dossier));
  }

  /** Whether its pollen is not what the crop is called, so that it is foreign to its own too. */
  private static boolean isForeignToItsOwn(List<Verdict> verdicts) {
    return verdicts.stream()
        .filter(Verdict.NotMet.class::isInstance)
        .filter(verdict -> NOT_TRUE_TO_NAME.contains(verdict.gate()))
        .anyMatch(verdict -> !isOfTooLowCategoryAlone(verdict));
  }

  /** The right seed, of too low a category, is what it is called. */
  private static boolean isOfTooLowCategoryAlone(Verdict verdict) {
    List<Value> wrong =
        verdict.findings().stream()
            .flatMap(finding -> finding.argument("faults").stream())
            .flatMap(faults -> ((Value.Several) faults).values().stream())
            .toList();
    return verdict.gate() == Gate.COMPONENTS
        && !wrong.isEmpty()
        && wrong.stream()
            .allMatch(
                fault ->
                    fault instanceof Value.Said said
                        && said.said().code().equals(Coded.codeOf(CategoryTooLow.class)));
  }

  private static List<Verdict> withFaults(List<Verdict> judged, GuardedSteps attempts) {
    return Stream.concat(judged.stream(), attempts.faults().stream().map(Fault::verdict))
        .sorted(BY_GATE_AND_ASPECT)
        .toList();
  }

  Optional<? extends Rulebook> rulebookOf(Optional<Material> material) {
    return material.map(Material::rulebookId).flatMap(rulebooks::apply);
  }

  private List<Verdict> verdicts(
      Dossier dossier,
      Optional<Material> material,
      Optional<? extends Rulebook> rulebook,
      GuardedSteps attempts) {
    if (material.isEmpty()) {
      return withCircle(
          attempts,
          owed(
              dossier,
              "",
              Optional.empty(),
              dossier.subject().kind() == Subject.Kind.CROP
                  ? new Evidence.CropDeclaration()
                  : new Evidence.LotOrigin(),
              new OriginFinding.NoOrigin(dossier.subject()),
              List.of()));
    }
    if (rulebook.isEmpty()) {
      return withCircle(
          attempts,
          owed(
              dossier,
              "rulebook",
              Optional.of(new Aspect.Rulebook().coded()),
              new Evidence.KnownRulebook(),
              new OriginFinding.UnknownRulebook(material.get().rulebookId()),
              List.of(new Advice.CorrectRulebook().coded())));
    }
    return gates.stream()
        .flatMap(
            gate ->
                attempts.verdicts(gate.gate(), seed -> gate.judge(seed, rulebook.get())).stream())
        .toList();
  }

  private static Verdict owed(
      Dossier dossier,
      String aspect,
      Optional<Coded> about,
      Evidence evidence,
      Finding finding,
      List<Coded> advice) {
    return new Verdict.Owed(
        Gate.ORIGIN,
        aspect,
        about,
        List.of(evidence.coded()),
        Optional.empty(),
        factIds(dossier),
        List.of(finding.coded()),
        advice);
  }

  /** A circle needs no rulebook to be seen. */
  private static List<Verdict> withCircle(GuardedSteps attempts, Verdict owed) {
    return Stream.concat(
            Stream.of(owed),
            attempts
                .verdicts(Gate.ORIGIN, seed -> OwnAncestor.judge(seed).stream().toList())
                .stream())
        .toList();
  }

  private static List<String> factIds(Dossier dossier) {
    return dossier.counting().map(FactType::idOf).toList();
  }

  private static Fitness state(
      Optional<Material> material,
      List<Verdict> verdicts,
      List<InheritedFinding> inherited,
      List<Fault> faults) {
    boolean condemned =
        verdicts.stream().anyMatch(Verdict.NotMet.class::isInstance)
            || inherited.stream().anyMatch(t -> t.weight() == InheritedFinding.Weight.CONDEMNS);
    if (condemned) {
      return Fitness.NOT_FIT;
    }
    boolean certified = material.map(Material::category).equals(Optional.of(Category.CERTIFIED));
    boolean owed =
        verdicts.stream()
                .filter(Verdict.Owed.class::isInstance)
                .anyMatch(verdict -> holdsUp(verdict.gate(), certified))
            || inherited.stream()
                .filter(trouble -> trouble.weight() == InheritedFinding.Weight.OWED)
                .anyMatch(trouble -> holdsUp(trouble.gate(), certified));
    return owed || !faults.isEmpty() ? Fitness.EVIDENCE_OWED : Fitness.FIT;
  }

  private static boolean holdsUp(Gate gate, boolean certified) {
    return certified || gate.reach() != Gate.Reach.CERTIFIED_DESCENDANTS;
  }
}
