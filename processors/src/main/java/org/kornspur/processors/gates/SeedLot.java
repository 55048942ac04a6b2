package org.kornspur.processors.gates;

import java.time.LocalDate;
import java.util.Arrays;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.Supplier;
import java.util.stream.Stream;
import org.kornspur.contract.Conditioning;
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
        rye() == Rye.OTHER || PossibleCategory.isPossible(material.kind(), material.category());
    return answer.nothing().isPresent() && !possible ? new RulebookAnswer.Silent() : answer;
  }

  Rye rye() {
    if (OpenPollinatedRye.is(dossier, material)) {
      return Rye.OTHER;
    }
    boolean isAdmixed =
        dossier.edgesIn().stream().anyMatch(edge -> edge.by() == FactType.ADMIXTURE)
            && dossier.openPollinatedPercent() >= LEAST_ADMIXTURE_PERCENT;
    return isAdmixed ? Rye.HYBRID_WITH_ADMIXTURE : Rye.HYBRID;
  }

  double totalKg(MassFlow.Direction direction) {
    return flows(direction).stream().mapToDouble(MassFlow::massKg).sum();
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
    return ofUnsplit.isEmpty() ? List.of(owed.get()) : ofUnsplit;
  }

  /** What the lot told that this one was split from; empty where that is not one lot only. */
  Optional<Report.FromParent> unsplit() {
    List<Edge> in = dossier.edgesIn();
    boolean isPart =
        in.stream().allMatch(edge -> edge.by() == FactType.LOT_SPLIT)
            && in.stream().map(Edge::parent).distinct().count() == 1;
    return isPart ? dossier.parent(in.get(0).parent()) : Optional.empty();
  }

  private static boolean isOfOneSample(List<Verdict> seedVerdicts) {
    return seedVerdicts.stream()
        .noneMatch(verdict -> verdict.gate() == Gate.LOT_SIZE && verdict instanceof Verdict.NotMet);
  }

  /** The remedies, and for treated seed that it is never food or feed. */
  List<Advice> remedies(Advice... remedies) {
    return Stream.concat(
            Arrays.stream(remedies), treatment().stream().map(Advice.NeverFoodOrFeed::new))
        .toList();
  }

  private boolean isUsed() {
    return dossier.edgesOut().stream().anyMatch(edge -> USES.contains(edge.by()));
  }

  private boolean isWhollyPassedOn() {
    double tolerancePercent = limit(Quantity.MASS_BALANCE_TOLERANCE).map(Limit::value).orElse(0.0);
    double passedOnKg =
        flows(MassFlow.Direction.OUT).stream()
            .filter(flow -> PASSED_ON.contains(flow.by()))
            .mapToDouble(MassFlow::massKg)
            .sum();
    return passedOnKg > 0
        && passedOnKg >= totalKg(MassFlow.Direction.IN) * (1 - tolerancePercent / 100);
  }
}
