package org.kornspur.processors.advice;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import org.kornspur.contract.FieldCropDeclared;
import org.kornspur.contract.InspectedPart;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.finding.Aspect;
import org.kornspur.processors.finding.Bound;
import org.kornspur.processors.finding.Reference;
import org.kornspur.processors.standards.Limit;
import org.kornspur.processors.standards.Quantity;
import org.kornspur.processors.standards.Rulebook;
import org.kornspur.processors.statistics.ExactBinomial;
import org.kornspur.processors.statistics.Interval;
import org.kornspur.processors.statistics.MoreUnits;
import org.kornspur.processors.statistics.SamplingPlan;
import org.kornspur.processors.statistics.SequentialPlan;
import org.kornspur.processors.statistics.SequentialPlan.Decision;

/**
 * When an inspector may stop counting, for each limit of the rulebook that a crop is counted
 * against. Advice, not a gate: the gate holds the law's number against the count itself. One class
 * because everything in it is read from the same counts against one limit.
 *
 * @param crop the crop
 * @param terms the risks that were asked for
 * @param counts one for each limit and part of the crop
 * @param sentence how many of them may stop
 */
public record InspectionAdvice(
    Subject crop, Terms terms, List<Count> counts, CountStatement sentence) {
  private static final double CONFIDENCE = 0.95;
  private static final int STEPS = 10;

  /**
   * Risks that a plan is to keep.
   *
   * @param alpha producer's risk: of refusing a crop that is just at the limit
   * @param beta consumer's risk: of accepting a crop that is {@code multiple} times as bad
   * @param multiple how many times the limit is certainly too bad
   */
  public record Terms(double alpha, double beta, double multiple) {

    /**
     * @throws IllegalArgumentException where no plan can be made of them
     */
    public Terms {
      if (!(alpha > 0 && beta > 0 && alpha + beta < 1)) {
        throw new AdviceRefusedException(
            new AdviceRefusal.RisksOutside(
                SignificantFigures.number(alpha), SignificantFigures.number(beta)));
      }
      if (!(multiple > 1)) {
        throw new AdviceRefusedException(
            new AdviceRefusal.MultipleTooSmall(SignificantFigures.number(multiple)));
      }
    }
  }

  /**
   * Acceptance and reject number after so many units.
   *
   * @param units units counted
   * @param acceptAtMost most bad units with which the count ends well; empty where it cannot yet
   * @param rejectAtLeast fewest bad units with which it ends badly; empty where it cannot yet
   */
  public record Step(int units, OptionalInt acceptAtMost, OptionalInt rejectAtLeast) {}

  /**
   * A count against one limit.
   *
   * @param limit the limit
   * @param inspected part of the crop that was counted
   * @param part what was counted
   * @param about which part and visit that is
   * @param unit what one unit is: a plant, or for counts by area a piece of ground
   * @param unitsCounted units counted so far
   * @param bad bad units so far
   * @param observed exact interval of the share of bad units; empty before the first count
   * @param leastUnits units below which the gate owes a larger count, so that none ends well
   * @param acceptable share of bad units at the limit
   * @param rejectable share of bad units that is certainly too bad
   * @param decision by the sequential plan; by the acceptance number of a fixed count where more
   *     units were counted than the sequential plan asks for at most
   * @param plan the sequential plan; empty where these terms take too long a count
   * @param steps its acceptance and reject numbers, at the present count first
   * @param fixed the smallest count of fixed size that keeps both risks; empty where there is none
   * @param more what more counting would settle, against the limit itself; empty before the first
   *     count
   * @param sentence how many of them may stop
   * @param factIds facts that were counted
   */
  public record Count(
      Limit limit,
      InspectedPart inspected,
      CountStatement part,
      Aspect about,
      CountStatement unit,
      int unitsCounted,
      int bad,
      Optional<Interval> observed,
      int leastUnits,
      double acceptable,
      double rejectable,
      Decision decision,
      Optional<SequentialPlan> plan,
      List<Step> steps,
      Optional<SamplingPlan> fixed,
      Optional<MoreUnits> more,
      CountStatement sentence,
      List<String> factIds) {

    /** Risks of the fixed plan: of refusing what is at the limit. */
    public Optional<Double> fixedProducersRisk() {
      return fixed.map(found -> found.producersRisk(acceptable));
    }

    /** Of accepting what is certainly too bad. */
    public Optional<Double> fixedConsumersRisk() {
      return fixed.map(found -> found.consumersRisk(rejectable));
    }
  }

  /**
   * The advice for a crop.
   *
   * @param crop dossier of the crop
   * @param rulebook rulebook that its production names
   * @return empty where the crop is not declared
   * @throws IllegalArgumentException where the multiple takes a limit to 100 % or more
   */
  public static Optional<InspectionAdvice> of(Dossier crop, Rulebook rulebook, Terms terms) {
    return crop.crop()
        .map(
            declaration -> {
              List<Count> counts = new ArrayList<>();
              for (Quantity quantity : CropCount.QUANTITIES) {
                limit(crop, declaration, rulebook, quantity)
                    .ifPresent(
                        limit ->
                            CropCount.of(crop, declaration.getRole(), limit)
                                .forEach(
                                    count ->
                                        counts.add(
                                            count(
                                                count,
                                                limit,
                                                leastUnits(crop, declaration, rulebook, limit),
                                                terms))));
              }
              return new InspectionAdvice(
                  crop.subject(), terms, List.copyOf(counts), sentence(crop.subject(), counts));
            });
  }

  private static Optional<Limit> limit(
      Dossier crop, FieldCropDeclared declaration, Rulebook rulebook, Quantity quantity) {
    return crop.judgedOn()
        .flatMap(
            day ->
                rulebook.forCrop(quantity, declaration.getCategory(), declaration.getRole(), day));
  }

  private static int leastUnits(
      Dossier crop, FieldCropDeclared declaration, Rulebook rulebook, Limit limit) {
    return CropCount.leastSample(limit.quantity())
        .flatMap(quantity -> limit(crop, declaration, rulebook, quantity))
        .map(least -> CropCount.units(least.value(), limit))
        .orElse(0);
  }

  private static Count count(CropCount counted, Limit limit, int leastUnits, Terms terms) {
    double acceptable = counted.acceptable();
    double rejectable = terms.multiple() * acceptable;
    if (rejectable >= 1) {
      throw new AdviceRefusedException(
          new AdviceRefusal.MultipleTooLarge(
              SignificantFigures.number(terms.multiple()),
              SignificantFigures.percent(acceptable),
              SignificantFigures.percent(rejectable)));
    }
    int units = counted.units();
    int bad = counted.bad();
    Optional<SequentialPlan> plan = sequential(acceptable, rejectable, terms);
    Optional<SamplingPlan> fixed =
        FixedPlan.keepingRisks(acceptable, rejectable, terms.alpha(), terms.beta());
    Optional<MoreUnits> more =
        units == 0
            ? Optional.empty()
            : Optional.of(MoreUnits.toSettle(bad, units, acceptable, 1 - terms.alpha()));
    Decision decision =
        onceEnough(decision(units, bad, acceptable, terms, plan), units, leastUnits);
    return new Count(
        limit,
        counted.inspected(),
        counted.part(),
        counted.about(),
        counted.unit(),
        units,
        bad,
        units == 0 ? Optional.empty() : Optional.of(ExactBinomial.interval(bad, units, CONFIDENCE)),
        leastUnits,
        acceptable,
        rejectable,
        decision,
        plan,
        plan.map(found -> steps(found, units, leastUnits)).orElse(List.of()),
        fixed,
        more,
        sentence(counted, limit, decision, plan, fixed),
        counted.factIds());
  }

  private static Optional<SequentialPlan> sequential(
      double acceptable, double rejectable, Terms terms) {
    try {
      return Optional.of(
          SequentialPlan.keepingRisks(acceptable, rejectable, terms.alpha(), terms.beta()));
    } catch (IllegalArgumentException tooLong) {
      // all else was checked: shares so close that nobody would count so long
      return Optional.empty();
    }
  }

  static Decision decision(
      int units, int bad, double acceptable, Terms terms, Optional<SequentialPlan> plan) {
    if (units == 0) {
      return Decision.GO_ON;
    }
    if (plan.isPresent() && units <= plan.get().mostUnits()) {
      return plan.get().after(units, bad);
    }
    int most = ExactBinomial.acceptanceNumber(units, acceptable, 1 - terms.alpha());
    if (bad > most) {
      return Decision.REJECT;
    }
    boolean enough =
        ExactBinomial.atMost(bad, units, terms.multiple() * acceptable) <= terms.beta();
    return plan.isPresent() || enough ? Decision.ACCEPT : Decision.GO_ON;
  }

  /** Before the least sample no count ends well: the gate would owe a larger one. */
  private static Decision onceEnough(Decision decision, int units, int leastUnits) {
    return decision == Decision.ACCEPT && units < leastUnits ? Decision.GO_ON : decision;
  }

  private static List<Step> steps(SequentialPlan plan, int counted, int leastUnits) {
    List<Step> steps = new ArrayList<>();
    if (counted > 0 && counted <= plan.mostUnits()) {
      steps.add(step(plan, counted, leastUnits));
    }
    for (int i = 1; i <= STEPS; i++) {
      int units = (int) Math.ceil((double) plan.mostUnits() * i / STEPS);
      if (units > counted) {
        steps.add(step(plan, units, leastUnits));
      }
    }
    return List.copyOf(steps);
  }

  private static Step step(SequentialPlan plan, int units, int leastUnits) {
    int accept = plan.acceptAtMost(units);
    int reject = plan.rejectAtLeast(units);
    return new Step(
        units,
        accept < 0 || units < leastUnits ? OptionalInt.empty() : OptionalInt.of(accept),
        reject > units ? OptionalInt.empty() : OptionalInt.of(reject));
  }

  private static CountStatement sentence(
      CropCount counted,
      Limit limit,
      Decision decision,
      Optional<SequentialPlan> plan,
      Optional<SamplingPlan> fixed) {
    return new CountStatement.Counted(
        counted.part(),
        counted.bad(),
        counted.units(),
        counted.unit(),
        Bound.of(limit),
        Reference.of(limit),
        decision,
        plan.map(SequentialPlan::mostUnits),
        fixed.map(SamplingPlan::examined),
        fixed.map(SamplingPlan::acceptanceNumber));
  }

  private static CountStatement sentence(Subject crop, List<Count> counts) {
    if (counts.isEmpty()) {
      return new CountStatement.NothingLimited(crop);
    }
    long settled = counts.stream().filter(count -> count.decision() != Decision.GO_ON).count();
    return new CountStatement.MayStop(counts.size(), crop, Math.toIntExact(settled));
  }
}
