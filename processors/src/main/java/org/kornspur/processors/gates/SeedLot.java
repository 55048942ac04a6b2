package org.kornspur.processors.gates;

import java.time.LocalDate;
import java.util.Arrays;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.Predicate;
import java.util.function.Supplier;
import java.util.stream.Stream;
import org.kornspur.contract.Conditioning;
import org.kornspur.contract.Sampling;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.balance.MassFlow;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.Material;
import org.kornspur.processors.dossier.Report;
import org.kornspur.processors.finding.Advice;
import org.kornspur.processors.pedigree.Edge;
import org.kornspur.processors.standards.Limit;
import org.kornspur.processors.standards.Quantity;
import org.kornspur.processors.standards.Rulebook;
import org.kornspur.processors.standards.RulebookAnswer;
import org.kornspur.processors.standards.Rye;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Verdict;

/**
 * A lot whose material is known, under its rulebook, by the text in force in its year of harvest.
 */
record SeedLot(Dossier dossier, Material material, Rulebook rulebook, LocalDate on) {
  /** Movements by which seed is used. */
  static final Set<FactType> USES =
      EnumSet.of(FactType.SOWING, FactType.DISPATCH, FactType.BLEND, FactType.ADMIXTURE);

  /** Movements after which seed is sampled and tested again, as another lot. */
  static final Set<FactType> PASSED_ON = EnumSet.of(FactType.CONDITIONING, FactType.LOT_MERGE);

  /**
   * Less than this secures no pollination, and makes no lot larger; common practice, no source. The
   * texts name no least share.
   */
  private static final double LEAST_ADMIXTURE_PERCENT = 1;

  static Optional<SeedLot> of(Dossier dossier, Rulebook rulebook) {
    if (dossier.subject().kind() != Subject.Kind.LOT) {
      return Optional.empty();
    }
    return dossier
        .material()
        .flatMap(
            material ->
                dossier.judgedOn().map(day -> new SeedLot(dossier, material, rulebook, day)));
  }

  /**
   * A lot whose seed is to be used: not a raw harvest, and not one that went wholly into
   * conditioning or a merger. A lot that was sown, mixed or dispatched is used, whatever it was.
   */
  static Optional<SeedLot> toBeUsed(Dossier dossier, Rulebook rulebook) {
    return of(dossier, rulebook).filter(SeedLot::isToBeUsed);
  }

  /**
   * A lot whose tests count for a gate: one to be used, and one of which seed went on as it was,
   * for what it failed goes with that.
   */
  static Optional<SeedLot> tested(Dossier dossier, Rulebook rulebook, Gate gate) {
    return of(dossier, rulebook).filter(lot -> lot.isToBeUsed() || lot.wentOnAsItWas(gate));
  }

  private boolean wentOnAsItWas(Gate gate) {
    return dossier.edgesOut().stream().anyMatch(edge -> SameSeed.isMovedBy(edge, gate, dossier));
  }

  boolean isToBeUsed() {
    return isUsed() || !(dossier.isRawHarvest() || isWhollyPassedOn());
  }

  Optional<Limit> limit(Quantity quantity) {
    return rulebook.forLot(quantity, material.category(), rye(), on);
  }

  /** What the book says; of seed that cannot be, nothing is known but its limits. */
  RulebookAnswer answer(Quantity quantity) {
    RulebookAnswer answer = rulebook.answerForLot(quantity, material.category(), rye(), on);
    boolean possible =
        rye() == Rye.OTHER || ImpossibleCategory.isPossible(material.kind(), material.category());
    return answer.nothing().isPresent() && !possible ? new RulebookAnswer.Silent() : answer;
  }

  Rye rye() {
    if (OpenPollinatedRye.is(dossier, material) || OpenPollinatedRye.isPart(dossier, material)) {
      return Rye.OTHER;
    }
    boolean isAdmixed =
        dossier.edgesIn().stream().anyMatch(edge -> edge.by() == FactType.ADMIXTURE)
            && dossier.openPollinatedPercent() >= LEAST_ADMIXTURE_PERCENT;
    return isAdmixed ? Rye.HYBRID_WITH_ADMIXTURE : Rye.HYBRID;
  }

  double totalKg(MassFlow.Direction direction) {
    return dossier.totalKg(direction);
  }

  List<MassFlow> flows(MassFlow.Direction direction) {
    return dossier.massFlows().stream().filter(flow -> flow.direction() == direction).toList();
  }

  /** What the seed was treated with, where it was. */
  Optional<String> treatment() {
    return dossier.facts(Conditioning.class).stream()
        .filter(
            conditioning ->
                conditioning.getOutputs().stream()
                    .anyMatch(part -> Subject.lot(part.getLotId()).equals(dossier.subject())))
        .flatMap(conditioning -> Optional.ofNullable(conditioning.getTreatment()).stream())
        .reduce((earlier, later) -> later);
  }

  /**
   * Verdicts of a gate on the lot that this one was split from, or what is owed where it was not
   * split from one lot only, or nothing is known of that one. A lot that was too large for one
   * sample speaks for no part of it.
   */
  List<Verdict> verdictsOfUnsplitOr(Gate gate, Supplier<Verdict> owed) {
    if (!isToBeUsed()) {
      return List.of();
    }
    List<Verdict> ofUnsplit =
        unsplit().stream()
            .map(Report.FromParent::seedVerdicts)
            .filter(SeedLot::isOfOneSample)
            .flatMap(List::stream)
            .filter(verdict -> verdict.gate() == gate)
            .toList();
    boolean isUnproven =
        ofUnsplit.stream().allMatch(Verdict.Met.class::isInstance) && provesNothing();
    return ofUnsplit.isEmpty() || isUnproven ? List.of(owed.get()) : ofUnsplit;
  }

  /**
   * Whether the whole was not sampled well and this lot was: then the gate of sampling no longer
   * says so, and what was tested of the whole tells nothing good of this one.
   */
  private boolean provesNothing() {
    return !dossier.facts(Sampling.class).isEmpty()
        && unsplit().stream()
            .flatMap(whole -> whole.seedVerdicts().stream())
            .anyMatch(
                verdict -> verdict.gate() == Gate.SAMPLING && !(verdict instanceof Verdict.Met));
  }

  /**
   * What the lot told that this one was split from, or is the whole of, only treated; empty where
   * that is not one lot only.
   */
  Optional<Report.FromParent> unsplit() {
    return unsplit(dossier);
  }

  static Optional<Report.FromParent> unsplit(Dossier dossier) {
    List<Edge> in = dossier.edgesIn();
    if (in.stream().map(Edge::parent).distinct().count() != 1) {
      return Optional.empty();
    }
    boolean isPart = in.stream().allMatch(edge -> edge.by() == FactType.LOT_SPLIT);
    return dossier
        .parent(in.get(0).parent())
        .filter(parent -> isPart || OnlyTreated.isAllOf(parent, dossier));
  }

  static boolean isOfOneSample(List<Verdict> seedVerdicts) {
    return seedVerdicts.stream()
        .noneMatch(verdict -> verdict.gate() == Gate.LOT_SIZE && verdict instanceof Verdict.NotMet);
  }

  /** The remedies, and for treated seed that it is never food or feed. */
  List<Advice> remedies(Advice... remedies) {
    return Stream.concat(
            Arrays.stream(remedies), treatment().stream().map(Advice.NeverFoodOrFeed::new))
        .toList();
  }

  boolean isUsed() {
    return dossier.edgesOut().stream().anyMatch(edge -> USES.contains(edge.by()));
  }

  /** Seed that was sampled before it was treated is judged by that sample. */
  private boolean speaksForTreated(MassFlow flow) {
    boolean isSampled = !dossier.facts(Sampling.class).isEmpty() || unsplit().isPresent();
    return isSampled && OnlyTreated.isBy(flow.factId(), dossier);
  }

  private boolean isWhollyPassedOn() {
    double passedOnKg = outKg(flow -> PASSED_ON.contains(flow.by()) && !speaksForTreated(flow));
    return passedOnKg > 0 && isAll(passedOnKg);
  }

  /** Kilograms that went out by some of its movements. */
  double outKg(Predicate<MassFlow> which) {
    return flows(MassFlow.Direction.OUT).stream().filter(which).mapToDouble(MassFlow::massKg).sum();
  }

  /** Whether so much is all the lot ever held, but for what scales differ by. */
  boolean isAll(double massKg) {
    return massKg >= totalKg(MassFlow.Direction.IN) * (1 - massTolerance());
  }

  /** Part of a mass by which weighings may differ; 0 where the book does not say. */
  double massTolerance() {
    return limit(Quantity.MASS_BALANCE_TOLERANCE).map(Limit::value).orElse(0.0) / 100;
  }
}
