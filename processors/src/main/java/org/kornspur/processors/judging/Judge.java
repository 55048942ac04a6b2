package org.kornspur.processors.judging;

import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.SortedMap;
import java.util.function.Function;
import java.util.stream.Stream;
import org.kornspur.contract.Category;
import org.kornspur.contract.FieldCropDeclared;
import org.kornspur.contract.RefusedAct;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.Material;
import org.kornspur.processors.dossier.Report;
import org.kornspur.processors.dossier.SeedMeasures;
import org.kornspur.processors.dossier.Trouble;
import org.kornspur.processors.gates.Condemned;
import org.kornspur.processors.gates.GateRule;
import org.kornspur.processors.gates.OwnAncestor;
import org.kornspur.processors.judging.Standing.State;
import org.kornspur.processors.pedigree.Edge;
import org.kornspur.processors.pedigree.MassFlow;
import org.kornspur.processors.release.Assessment;
import org.kornspur.processors.release.Releases;
import org.kornspur.processors.standards.Rulebook;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Verdict;

/**
 * Judges a dossier: runs every gate under the rulebook that the production names, adds what is
 * inherited, and says what the children, the ground and the pedigree are to be told. Pure.
 */
public final class Judge {
  private static final Comparator<Verdict> BY_GATE_AND_ASPECT =
      Comparator.comparing(Verdict::gate).thenComparing(Verdict::aspect);

  private final Function<String, Optional<? extends Rulebook>> rulebooks;
  private final List<GateRule> gates;

  /**
   * @param rulebooks finds a rulebook by the id that a production names
   * @param gates every gate; each says itself where it applies
   */
  public Judge(
      Function<String, Optional<? extends Rulebook>> rulebooks, List<? extends GateRule> gates) {
    this.rulebooks = rulebooks;
    this.gates = List.copyOf(gates);
  }

  /** All that follows from a dossier. */
  public Outcome judge(Dossier dossier) {
    return switch (dossier.subject().kind()) {
      case LOT, CROP -> judgeSeed(dossier);
      case HYBRID ->
          new Outcome(
              Optional.empty(), List.of(), HybridMasterData.reportsOf(dossier), Optional.empty());
      case SOURCE -> new Outcome(Optional.empty(), List.of(), List.of(), Plots.of(dossier));
      case ENTERPRISE -> new Outcome(Optional.empty(), List.of(), List.of(), Optional.empty());
    };
  }

  /** What the gates say of a crop or lot; release is decided on it. */
  public Assessment assess(Dossier dossier) {
    Optional<Material> material = dossier.material();
    Optional<? extends Rulebook> rulebook = rulebookOf(material);
    List<Verdict> verdicts =
        Stream.concat(
                verdicts(dossier, material, rulebook).stream(), Condemned.judge(dossier).stream())
            .sorted(BY_GATE_AND_ASPECT)
            .toList();
    List<Trouble> inherited = Inheritance.inheritedBy(dossier);
    return new Assessment(
        state(material, verdicts, inherited).name(),
        material,
        rulebook.map(book -> new Assessment.Book(book.id(), book.edition())),
        verdicts,
        inherited);
  }

  private Optional<? extends Rulebook> rulebookOf(Optional<Material> material) {
    return material.map(Material::rulebookId).flatMap(rulebooks::apply);
  }

  private Outcome judgeSeed(Dossier dossier) {
    if (dossier.counting().allMatch(RefusedAct.class::isInstance)) {
      return new Outcome(Optional.empty(), List.of(), List.of(), Optional.empty());
    }
    Assessment assessment = assess(dossier);
    Optional<Material> material = assessment.material();
    List<Verdict> verdicts = assessment.verdicts();
    List<Trouble> inherited = assessment.inherited();
    Standing standing =
        new Standing(
            dossier.subject(),
            State.valueOf(assessment.standing()),
            material,
            rulebookOf(material).map(book -> book.title() + ", edition " + book.edition()),
            verdicts,
            inherited,
            total(dossier, MassFlow.Direction.IN),
            total(dossier, MassFlow.Direction.OUT),
            dossier.holder(),
            dossier.edgesIn().stream().map(Edge::parent).distinct().sorted().toList(),
            Releases.of(dossier, assessment, this::assess),
            dispatches(dossier).mapToDouble(Edge::massKg).sum(),
            dossier.crop().map(FieldCropDeclared::getFloweringFrom),
            dossier.crop().map(FieldCropDeclared::getFloweringTo));
    return new Outcome(
        Optional.of(standing),
        Stream.concat(dossier.edgesIn().stream(), dispatches(dossier)).toList(),
        reportsToChildren(dossier, material, verdicts, inherited),
        Plots.of(dossier));
  }

  private List<Verdict> verdicts(
      Dossier dossier, Optional<Material> material, Optional<? extends Rulebook> rulebook) {
    if (material.isEmpty()) {
      return withCircle(
          dossier,
          new Verdict.Owed(
              Gate.ORIGIN,
              "",
              dossier.subject().kind() == Subject.Kind.CROP
                  ? "the declaration of the field crop"
                  : "the harvest, declaration or mixture that this lot came from",
              Optional.empty(),
              factIds(dossier),
              "What "
                  + dossier.subject()
                  + " is cannot be told: no fact says where it came from. Record its origin."));
    }
    if (rulebook.isEmpty()) {
      return withCircle(
          dossier,
          new Verdict.Owed(
              Gate.ORIGIN,
              "rulebook",
              "a rulebook that is known here",
              Optional.empty(),
              factIds(dossier),
              "The production names the rulebook '"
                  + material.get().rulebookId()
                  + "', which is not known here. Correct the declaration or add the rulebook."));
    }
    return gates.stream().flatMap(gate -> gate.judge(dossier, rulebook.get()).stream()).toList();
  }

  /** A circle needs no rulebook to be seen. */
  private static List<Verdict> withCircle(Dossier dossier, Verdict owed) {
    return Stream.concat(Stream.of(owed), OwnAncestor.judge(dossier).stream()).toList();
  }

  private static List<String> factIds(Dossier dossier) {
    return dossier.counting().map(fact -> FactType.headerOf(fact).getFactId()).toList();
  }

  private static State state(
      Optional<Material> material, List<Verdict> verdicts, List<Trouble> inherited) {
    boolean condemned =
        verdicts.stream().anyMatch(Verdict.NotMet.class::isInstance)
            || inherited.stream().anyMatch(t -> t.weight() == Trouble.Weight.CONDEMNS);
    if (condemned) {
      return State.NOT_FIT;
    }
    boolean certified = material.map(Material::category).equals(Optional.of(Category.CERTIFIED));
    boolean owed =
        verdicts.stream()
                .filter(Verdict.Owed.class::isInstance)
                .anyMatch(verdict -> holdsUp(verdict.gate(), certified))
            || inherited.stream()
                .filter(trouble -> trouble.weight() == Trouble.Weight.OWED)
                .anyMatch(trouble -> holdsUp(trouble.gate(), certified));
    return owed ? State.EVIDENCE_OWED : State.FIT;
  }

  private static boolean holdsUp(Gate gate, boolean certified) {
    return certified || gate.reach() != Gate.Reach.CERTIFIED_DESCENDANTS;
  }

  /** A customer has no dossier to tell of what came in, so the lot tells of it. */
  private static Stream<Edge> dispatches(Dossier dossier) {
    return dossier.edgesOut().stream()
        .filter(edge -> edge.child().kind() == Subject.Kind.ENTERPRISE);
  }

  private static List<Report> reportsToChildren(
      Dossier dossier,
      Optional<Material> material,
      List<Verdict> verdicts,
      List<Trouble> inherited) {
    List<Trouble> passedOn = Inheritance.passedOnBy(dossier, verdicts, inherited);
    SortedMap<String, Integer> ancestors = Inheritance.ancestorsOf(dossier);
    List<Verdict> seedVerdicts =
        verdicts.stream()
            .filter(verdict -> verdict.gate().heritage() == Gate.Heritage.SEED_QUALITY)
            .toList();
    int stepsHandedDown = dossier.stepsHandedDown();
    SeedMeasures measures = Measures.of(dossier);
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
                    material,
                    measures,
                    passedOn,
                    ancestors,
                    stepsHandedDown,
                    seedVerdicts,
                    postControls,
                    holder))
        .toList();
  }

  private static double total(Dossier dossier, MassFlow.Direction direction) {
    return dossier.massFlows().stream()
        .filter(flow -> flow.direction() == direction)
        .mapToDouble(MassFlow::massKg)
        .sum();
  }
}
