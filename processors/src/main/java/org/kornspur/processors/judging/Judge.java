package org.kornspur.processors.judging;

import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.function.Function;
import java.util.stream.Stream;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.contract.Category;
import org.kornspur.contract.FieldCropDeclared;
import org.kornspur.contract.RefusedAct;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.statement.Coded;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.InheritedFinding;
import org.kornspur.processors.dossier.Material;
import org.kornspur.processors.dossier.Report;
import org.kornspur.processors.dossier.SeedMeasures;
import org.kornspur.processors.finding.Advice;
import org.kornspur.processors.finding.Aspect;
import org.kornspur.processors.finding.Evidence;
import org.kornspur.processors.finding.Fault;
import org.kornspur.processors.finding.Finding;
import org.kornspur.processors.finding.OriginFinding;
import org.kornspur.processors.gates.BeyondLimits;
import org.kornspur.processors.gates.Condemned;
import org.kornspur.processors.gates.Corrections;
import org.kornspur.processors.gates.GateRule;
import org.kornspur.processors.gates.Gates;
import org.kornspur.processors.gates.OwnAncestor;
import org.kornspur.processors.gates.ProvenSenders;
import org.kornspur.processors.gates.Silence;
import org.kornspur.processors.ground.Plot;
import org.kornspur.processors.pedigree.Edge;
import org.kornspur.processors.balance.MassFlow;
import org.kornspur.processors.release.Assessment;
import org.kornspur.processors.release.Releases;
import org.kornspur.processors.standards.Rulebook;
import org.kornspur.processors.standards.Rulebooks;
import org.kornspur.processors.standards.RulesFingerprint;
import org.kornspur.processors.verdict.Fitness;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.RuleNote;
import org.kornspur.processors.verdict.Verdict;

/**
 * Judges a dossier: runs every gate under the rulebook that the production names, adds what is
 * inherited, and says what the children, the ground and the pedigree are to be told. Pure.
 *
 * <p>Facts stay for ever, also those that an earlier release let in. So whatever a gate or another
 * part throws on them becomes a {@link Fault} and a verdict that evidence is owed, which
 * descendants inherit like any other; nothing that could not be judged is ever fit.
 */
public final class Judge {
  private static final Comparator<Verdict> BY_GATE_AND_ASPECT =
      Comparator.comparing(Verdict::gate).thenComparing(Verdict::aspect);

  private final Function<String, Optional<? extends Rulebook>> rulebooks;
  private final List<GateRule> gates;
  private final RulesFingerprint rules;

  /** Judges by rulebooks with every gate. */
  public static Judge by(Rulebooks rulebooks) {
    return by(rulebooks, Gates.all());
  }

  /** Judges by rulebooks with some gates. */
  public static Judge by(Rulebooks rulebooks, List<? extends GateRule> gates) {
    return new Judge(rulebooks::find, gates, fingerprint(rulebooks, gates));
  }

  private static RulesFingerprint fingerprint(Rulebooks rulebooks, List<? extends GateRule> gates) {
    List<String> names = gates.stream().map(gate -> gate.gate().name()).toList();
    return RulesFingerprint.of(rulebooks, names, JudgingVersion.CURRENT);
  }

  /**
   * A judge whose fingerprint says nothing of the rulebooks.
   *
   * @param rulebooks finds a rulebook by the id that a production names
   * @param gates every gate; each says itself where it applies
   */
  public Judge(
      Function<String, Optional<? extends Rulebook>> rulebooks, List<? extends GateRule> gates) {
    this(rulebooks, gates, fingerprint(Rulebooks.load(List.of()), gates));
  }

  /**
   * @param rulebooks finds a rulebook by the id that a production names
   * @param gates every gate; each says itself where it applies
   * @param rules fingerprint of both
   */
  public Judge(
      Function<String, Optional<? extends Rulebook>> rulebooks,
      List<? extends GateRule> gates,
      RulesFingerprint rules) {
    this.rulebooks = rulebooks;
    this.gates = List.copyOf(gates);
    this.rules = rules;
  }

  /** The same judge under a setting of the site that changes verdicts, so that it is a rule too. */
  public Judge under(String setting) {
    return new Judge(rulebooks, gates, rules.with(setting));
  }

  /** Fingerprint of the rules that this judges by. */
  public RulesFingerprint rules() {
    return rules;
  }

  /** All that follows from a dossier. It throws nothing: what breaks is among the faults. */
  public Outcome judge(Dossier dossier) {
    Attempts attempts = new Attempts(dossier);
    return switch (dossier.subject().kind()) {
      case LOT, CROP -> judgeSeed(dossier);
      case HYBRID -> {
        List<Report> reports =
            attempts.get(Gate.COMPONENTS, "master data", HybridMasterData::reportsOf, List::of);
        yield new Outcome(
            Optional.empty(), List.of(), reports, Optional.empty(), attempts.faults());
      }
      case SOURCE -> {
        Optional<Plot> place = place(dossier, attempts);
        yield new Outcome(Optional.empty(), List.of(), List.of(), place, attempts.faults());
      }
      case ENTERPRISE -> {
        List<Report> reports =
            attempts.get(Gate.ORIGIN, "declaration", LaboratoryMasterData::reportsOf, List::of);
        yield new Outcome(
            Optional.empty(), List.of(), reports, Optional.empty(), attempts.faults());
      }
    };
  }

  /**
   * What the gates say of a crop or lot; release is decided on it. What cannot be judged is owed:
   * it throws nothing.
   */
  public Assessment assess(Dossier dossier) {
    return assessed(dossier).assessment();
  }

  /** What is said of seed, and what others are told of it, before any question of release. */
  private record Assessed(
      Assessment assessment,
      List<InheritedFinding> passedOn,
      SortedMap<String, Integer> ancestors,
      SeedMeasures measures,
      Optional<Plot> place,
      List<RuleNote> notes) {}

  private Assessed assessed(Dossier dossier) {
    Attempts attempts = new Attempts(dossier);
    Optional<Material> material = dossier.material();
    Optional<? extends Rulebook> rulebook = rulebookOf(material);
    List<Verdict> judged =
        Stream.of(
                verdicts(dossier, material, rulebook, attempts),
                attempts.verdicts(Gate.CONDEMNATION, Condemned::judge),
                attempts.verdicts(Gate.ORIGIN, ProvenSenders::judge),
                attempts.verdicts(Gate.ORIGIN, Corrections::judge),
                attempts.verdicts(Gate.ORIGIN, seed -> BeyondLimits.judge(seed).stream().toList()))
            .flatMap(List::stream)
            .toList();
    List<InheritedFinding> inherited =
        attempts.get(Gate.ORIGIN, "inheritance", Inheritance::inheritedBy, List::of);
    SortedMap<String, Integer> ancestors =
        attempts.get(Gate.ORIGIN, "ancestors", Inheritance::ancestorsOf, TreeMap::new);
    SeedMeasures measures = attempts.get(Gate.ORIGIN, "measures", Measures::of, SeedMeasures::none);
    Optional<Plot> place =
        place(dossier, attempts)
            .map(plot -> hasTooManyOffTypes(judged) ? plot.withTooManyOffTypes() : plot);
    List<RuleNote> notes =
        attempts.get(
            Gate.ORIGIN,
            "rules",
            seed -> rulebook.map(book -> Silence.notes(seed, book)).orElse(List.of()),
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
  private static Optional<Plot> place(Dossier dossier, Attempts attempts) {
    return attempts.get(Gate.ISOLATION, "place", Plots::of, () -> Plots.ofWhatCanBePlaced(dossier));
  }

  private static boolean hasTooManyOffTypes(List<Verdict> verdicts) {
    return verdicts.stream()
        .anyMatch(verdict -> verdict.gate() == Gate.OFF_TYPES && verdict instanceof Verdict.NotMet);
  }

  private static List<Verdict> withFaults(List<Verdict> judged, Attempts attempts) {
    return Stream.concat(judged.stream(), attempts.faults().stream().map(Fault::verdict))
        .sorted(BY_GATE_AND_ASPECT)
        .toList();
  }

  private Optional<? extends Rulebook> rulebookOf(Optional<Material> material) {
    return material.map(Material::rulebookId).flatMap(rulebooks::apply);
  }

  private Outcome judgeSeed(Dossier dossier) {
    if (dossier.counting().allMatch(RefusedAct.class::isInstance)
        && dossier.awaiting(SpecificRecord.class).isEmpty()) {
      return Outcome.NOTHING;
    }
    Assessed assessed = assessed(dossier);
    Releases.Decided decided = Releases.decide(dossier, assessed.assessment(), this::assess);
    Assessment assessment = decided.assessment();
    Optional<Material> material = assessment.material();
    Standing standing =
        new Standing(
            dossier.subject(),
            assessment.standing(),
            material,
            rulebookOf(material).map(book -> book.title() + ", edition " + book.edition()),
            assessment.verdicts(),
            assessment.inherited(),
            total(dossier, MassFlow.Direction.IN),
            total(dossier, MassFlow.Direction.OUT),
            dossier.holder(),
            dossier.edgesIn().stream().map(Edge::parent).distinct().sorted().toList(),
            decided.release(),
            dispatches(dossier).mapToDouble(Edge::massKg).sum(),
            dossier.crop().map(FieldCropDeclared::getFloweringFrom),
            dossier.crop().map(FieldCropDeclared::getFloweringTo),
            assessed.notes());
    return new Outcome(
        Optional.of(standing),
        Stream.concat(dossier.edgesIn().stream(), dispatches(dossier)).toList(),
        Stream.concat(
                reportsToChildren(dossier, assessed).stream(),
                LaboratoryMasterData.askedBy(dossier))
            .toList(),
        assessed.place(),
        assessment.faults());
  }

  private List<Verdict> verdicts(
      Dossier dossier,
      Optional<Material> material,
      Optional<? extends Rulebook> rulebook,
      Attempts attempts) {
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
  private static List<Verdict> withCircle(Attempts attempts, Verdict owed) {
    return Stream.concat(
            Stream.of(owed),
            attempts
                .verdicts(Gate.ORIGIN, seed -> OwnAncestor.judge(seed).stream().toList())
                .stream())
        .toList();
  }

  private static List<String> factIds(Dossier dossier) {
    return dossier.counting().map(fact -> FactType.headerOf(fact).getFactId()).toList();
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

  /** A customer has no dossier to tell of what came in, so the lot tells of it. */
  private static Stream<Edge> dispatches(Dossier dossier) {
    return dossier.edgesOut().stream()
        .filter(edge -> edge.child().kind() == Subject.Kind.ENTERPRISE);
  }

  private static List<Report> reportsToChildren(Dossier dossier, Assessed assessed) {
    List<Verdict> seedVerdicts =
        assessed.assessment().verdicts().stream()
            .filter(verdict -> verdict.gate().heritage() == Gate.Heritage.SEED_QUALITY)
            .toList();
    int stepsHandedDown = dossier.stepsHandedDown();
    List<String> postControls = dossier.postControls();
    Optional<String> holder = dossier.holder();
    return dossier.edgesOut().stream()
        .map(Edge::child)
        .filter(child -> child.kind() != Subject.Kind.ENTERPRISE)
        .distinct()
        .sorted()
        .<Report>map(
            child ->
                new Report.FromParent(
                    dossier.subject(),
                    child,
                    assessed.assessment().material(),
                    assessed.measures(),
                    assessed.passedOn(),
                    assessed.ancestors(),
                    stepsHandedDown,
                    seedVerdicts,
                    postControls,
                    holder,
                    dossier.crop().map(FieldCropDeclared::getRole)))
        .toList();
  }

  private static double total(Dossier dossier, MassFlow.Direction direction) {
    return dossier.massFlows().stream()
        .filter(flow -> flow.direction() == direction)
        .mapToDouble(MassFlow::massKg)
        .sum();
  }
}
