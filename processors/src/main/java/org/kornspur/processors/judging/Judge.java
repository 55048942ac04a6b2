package org.kornspur.processors.judging;

import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Stream;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.contract.FieldCropDeclared;
import org.kornspur.contract.RefusedAct;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.balance.MassFlow;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.Material;
import org.kornspur.processors.dossier.Report;
import org.kornspur.processors.dossier.SeedMeasures;
import org.kornspur.processors.finding.Fault;
import org.kornspur.processors.gates.FailedParts;
import org.kornspur.processors.gates.GainedMass;
import org.kornspur.processors.gates.GateRule;
import org.kornspur.processors.gates.Gates;
import org.kornspur.processors.gates.MixtureReport;
import org.kornspur.processors.ground.Plot;
import org.kornspur.processors.pedigree.Edge;
import org.kornspur.processors.release.Assessment;
import org.kornspur.processors.release.ReleaseDecision;
import org.kornspur.processors.standards.Rulebook;
import org.kornspur.processors.standards.Rulebooks;
import org.kornspur.processors.standards.RulesFingerprint;
import org.kornspur.processors.verdict.Gate;
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
  private final Function<String, Optional<? extends Rulebook>> rulebooks;
  private final List<GateRule> gates;
  private final RulesFingerprint rules;
  private final Assessor assessor;

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
    this.assessor = new Assessor(rulebooks, this.gates, rules);
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
    GuardedSteps attempts = new GuardedSteps(dossier);
    return switch (dossier.subject().kind()) {
      case LOT, CROP -> judgeSeed(dossier);
      case HYBRID ->
          told(
              attempts.get(Gate.COMPONENTS, "master data", HybridMasterData::reportsOf, List::of),
              attempts);
      case SOURCE -> {
        Optional<Plot> place = Assessor.place(dossier, attempts);
        yield new Outcome(Optional.empty(), List.of(), List.of(), place, attempts.faults());
      }
      case ENTERPRISE ->
          told(
              attempts.get(Gate.ORIGIN, "declaration", LaboratoryMasterData::reportsOf, List::of),
              attempts);
    };
  }

  private static Outcome told(List<Report> reports, GuardedSteps attempts) {
    return new Outcome(Optional.empty(), List.of(), reports, Optional.empty(), attempts.faults());
  }

  /** What a crop or lot asks others, whatever comes of its judging. */
  public static List<Report> questions(Dossier dossier) {
    return LaboratoryMasterData.askedBy(dossier).toList();
  }

  /**
   * What the gates say of a crop or lot; release is decided on it. What cannot be judged is owed:
   * it throws nothing.
   */
  public Assessment assess(Dossier dossier) {
    return assessor.assess(dossier).assessment();
  }

  /** What is measured of a lot for a blend of it. */
  public SeedMeasures measures(Dossier lot) {
    return assessor.assess(lot).measures().proven();
  }

  private Outcome judgeSeed(Dossier dossier) {
    if (dossier.counting().allMatch(RefusedAct.class::isInstance)
        && dossier.awaiting(SpecificRecord.class).isEmpty()) {
      return Outcome.NOTHING;
    }
    Assessor.Assessed assessed = assessor.assess(dossier);
    ReleaseDecision.Decided decided =
        ReleaseDecision.decide(dossier, assessed.assessment(), this::assess);
    Assessment assessment = decided.assessment();
    Optional<Material> material = assessment.material();
    Standing standing =
        new Standing(
            dossier.subject(),
            assessment.standing(),
            material,
            assessor.rulebookOf(material).map(book -> book.title() + ", edition " + book.edition()),
            assessment.verdicts(),
            assessment.inherited(),
            dossier.totalKg(MassFlow.Direction.IN),
            dossier.totalKg(MassFlow.Direction.OUT),
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
        Stream.of(
                reportsToChildren(dossier, assessed).stream(),
                FailuresOfParts.reports(dossier, assessment.verdicts()),
                TestsOfRenamedLot.reports(dossier, assessment.verdicts()),
                LaboratoryMasterData.askedBy(dossier))
            .flatMap(reports -> reports)
            .toList(),
        assessed.place(),
        assessment.faults());
  }

  /** A customer has no dossier to tell of what came in, so the lot tells of it. */
  private static Stream<Edge> dispatches(Dossier dossier) {
    return dossier.edgesOut().stream()
        .filter(edge -> edge.child().kind() == Subject.Kind.ENTERPRISE);
  }

  private static List<Report> reportsToChildren(Dossier dossier, Assessor.Assessed assessed) {
    List<Verdict> seedVerdicts = FailedParts.toldOf(dossier, assessed.assessment().verdicts());
    SeedMeasures measures = FailedParts.measures(dossier, assessed.measures());
    Optional<Report.Mixture> mixture = MixtureReport.of(dossier);
    int stepsHandedDown = dossier.stepsHandedDown();
    List<String> postControls = dossier.postControls();
    Optional<String> holder = dossier.holder();
    Optional<Double> heldKg =
        Optional.of(dossier.totalKg(MassFlow.Direction.IN))
            .filter(kg -> kg > 0 && !dossier.isRawHarvest());
    Optional<Report.Gained> gained = GainedMass.toldBy(dossier);
    Optional<Double> openPollinated =
        Optional.of(dossier.openPollinatedPercent()).filter(percent -> percent > 0);
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
                    measures,
                    assessed.passedOn(),
                    assessed.ancestors(),
                    stepsHandedDown,
                    seedVerdicts,
                    postControls,
                    holder,
                    dossier.cropRole(),
                    openPollinated,
                    mixture.filter(told -> child.kind() == Subject.Kind.LOT),
                    heldKg,
                    gained.filter(told -> child.kind() == Subject.Kind.LOT)))
        .toList();
  }
}
