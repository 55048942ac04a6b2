package org.kornspur.processors.gates;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.kornspur.contract.FieldInspection;
import org.kornspur.contract.InspectedPart;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.finding.Advice;
import org.kornspur.processors.finding.Aspect;
import org.kornspur.processors.finding.Evidence;
import org.kornspur.processors.finding.Finding;
import org.kornspur.processors.finding.SheddingFinding;
import org.kornspur.processors.finding.Thing;
import org.kornspur.processors.gates.Findings.GateAspect;
import org.kornspur.processors.ground.FloweringWindow;
import org.kornspur.processors.standards.Limit;
import org.kornspur.processors.standards.Quantity;
import org.kornspur.processors.standards.Rulebook;
import org.kornspur.processors.statistics.ExactBinomial;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Measured;
import org.kornspur.processors.verdict.Verdict;

/**
 * Plants of the female that shed pollen, at each visit in flower and over all visits.
 *
 * <p>Council Directive 66/402/EEC, Annex I, by its complement: at least 98 % of the male-sterile
 * component is sterile. The text speaks of the plants of the component; but one that does not
 * flower yet shows nothing. So a count fails where it is over the limit among all plants counted,
 * and where it is over it among those in flower alone, a count in full flower is owed. Where only
 * plants in flower were counted they decide.
 *
 * <p>Over all visits the worse of two averages counts: over the plants, and over the days of
 * flowering, so that plants count for the days that they shed before they were removed, and never
 * vanish behind later counts ({@link SheddingDays}). Common practice, no source.
 *
 * <p>Of a crop for certified hybrid seed the Directive gives no share; it asks in Annex I for
 * sufficient varietal identity and purity. There an answer is owed from a share on that is common
 * practice, no source.
 */
final class SheddingFemalesGate implements GateRule {
  private static final double CONFIDENCE = 0.95;

  @Override
  public List<Verdict> judge(Dossier dossier, Rulebook rulebook) {
    return SeedCrop.of(dossier, rulebook)
        .filter(crop -> FemaleSterilityGate.hasSterileFemale(crop.role()))
        .map(crop -> new Check(crop, new SampleSize(crop.limit(Quantity.FLOWERING_PLANTS))))
        .map(Check::verdicts)
        .orElse(List.of());
  }

  private record Check(SeedCrop crop, SampleSize size) {

    List<Verdict> verdicts() {
      List<Visit> visits = Visit.of(counts());
      List<Verdict> verdicts = new ArrayList<>();
      crop.limit(Quantity.SHEDDING_FEMALES)
          .ifPresent(
              limit ->
                  Visit.byNumber(visits)
                      .forEach((number, days) -> verdicts.add(verdict(number, days, limit))));
      GateAspect all = at("all visits", new Aspect.AllVisits());
      crop.limit(Quantity.SHEDDING_FEMALES_ALL_VISITS)
          .ifPresent(
              limit ->
                  verdicts.add(
                      visits.isEmpty()
                          ? Findings.missing(all, limit, new Evidence.SheddingCount())
                          : verdict(all, Optional.empty(), visits, limit)));
      if (verdicts.isEmpty()) {
        GateAspect each = at("each visit", new Aspect.EachVisit());
        crop.limit(Quantity.SHEDDING_FEMALES)
            .map(limit -> Findings.missing(each, limit, new Evidence.SheddingCount()))
            .ifPresent(verdicts::add);
      }
      untrueToType(visits).ifPresent(verdicts::add);
      withoutPlantsInFlower().ifPresent(verdicts::add);
      return verdicts;
    }

    /** Where the text gives no share, a crop of which so many shed is not true to type. */
    private Optional<Verdict> untrueToType(List<Visit> visits) {
      return crop.limit(Quantity.SHEDDING_FEMALES_UNTRUE_TO_TYPE)
          .filter(limit -> crop.limit(Quantity.SHEDDING_FEMALES_ALL_VISITS).isEmpty())
          .filter(limit -> !visits.isEmpty())
          .map(
              limit ->
                  verdict(
                      at("true to type", new Aspect.AllVisits()), Optional.empty(), visits, limit))
          .flatMap(
              verdict ->
                  verdict instanceof Verdict.NotMet failed
                      ? Optional.of(
                          failed.owing(
                              new Evidence.SheddingCount().coded(),
                              new SheddingFinding.UntrueToType().coded()))
                      : Optional.of(verdict).filter(said -> impossible(visits).isPresent()));
    }

    /** What was counted in the whole crop counts where it speaks against the female. */
    private List<FieldInspection> counts() {
      return crop.counting(SheddingShare.telling(crop.inspections()), this::isOver).stream()
          .filter(count -> count.getPart() == InspectedPart.FEMALE || isOver(count))
          .toList();
    }

    private boolean isOver(FieldInspection count) {
      double share = (double) count.getSheddingPlants() / count.getPlantsInReceptiveFlower();
      return Stream.of(
              Quantity.SHEDDING_FEMALES,
              Quantity.SHEDDING_FEMALES_ALL_VISITS,
              Quantity.SHEDDING_FEMALES_UNTRUE_TO_TYPE)
          .flatMap(quantity -> crop.limit(quantity).stream())
          .anyMatch(limit -> !limit.holds(share));
    }

    /** Of one visit all days together, but for one that fails alone. */
    private Verdict verdict(int number, List<Visit> days, Limit limit) {
      GateAspect at = at("visit " + number, new Aspect.Visit(number));
      return days.stream()
          .map(day -> verdict(at, Optional.of(number), List.of(day), limit))
          .filter(Verdict.NotMet.class::isInstance)
          .findFirst()
          .orElseGet(() -> verdict(at, Optional.of(number), days, limit));
    }

    private Optional<Verdict> withoutPlantsInFlower() {
      List<FieldInspection> counts = SheddingShare.withoutPlantsInFlower(crop.inspections());
      return counts.isEmpty()
          ? Optional.empty()
          : Optional.of(
              Findings.of(
                      at("plants in flower", new Aspect.PlantsInFlower()),
                      FactType.idsOf(counts),
                      new SheddingFinding.WithoutPlantsInFlower(
                          counts.stream()
                              .mapToInt(FieldInspection::getSheddingPlants)
                              .reduce(0, Math::addExact)))
                  .owed(new Evidence.SheddingCount()));
    }

    private Verdict verdict(
        GateAspect at, Optional<Integer> number, List<Visit> visits, Limit limit) {
      Optional<FieldInspection> impossible = impossible(visits);
      if (impossible.isPresent()) {
        FieldInspection count = impossible.get();
        return Findings.impossible(
            at,
            limit,
            Thing.SHEDDING_PLANTS,
            count.getSheddingPlants(),
            count.getPlantsInReceptiveFlower(),
            count.getHeader().getFactId());
      }
      SheddingDays days =
          new SheddingDays(
              visits.stream()
                  .flatMap(visit -> visit.counts().stream())
                  .map(SheddingDays.Count::of)
                  .toList(),
              size,
              limit::holds,
              crop.declaredFlowering(),
              crop.flowering());
      SheddingDays.Shares inFlower = days.inFlower();
      SheddingDays.Shares ofAll = days.ofAllPlants();
      Findings found =
          Findings.of(
                  at,
                  visits.stream().flatMap(visit -> visit.factIds().stream()).toList(),
                  new SheddingFinding.Counted(
                      number,
                      inFlower.shedding(),
                      inFlower.plants(),
                      Amount.percent(100 * inFlower.overPlants())))
              .and(ofAll(inFlower, ofAll))
              .and(overTheDays(ofAll))
              .and(SampleSize.riskOfShare(days.countedInFlower(), limit.value()));
      if (!limit.holds(ofAll.worse())) {
        return against(found, ofAll, limit);
      }
      List<Evidence> owed = owed(days, inFlower, limit);
      return owed.isEmpty()
          ? against(found, ofAll, limit)
          : found
              .and(why(visits, days, inFlower, limit))
              .owed(limit, owed.toArray(Evidence[]::new));
    }

    private static Optional<FieldInspection> impossible(List<Visit> visits) {
      return visits.stream()
          .flatMap(visit -> visit.counts().stream())
          .filter(count -> count.getSheddingPlants() > count.getPlantsInReceptiveFlower())
          .findFirst();
    }

    private Verdict against(Findings found, SheddingDays.Shares shares, Limit limit) {
      return found.against(
          shares.worse(),
          Optional.of(interval(shares)),
          limit,
          List.of(new Advice.RemoveShedding(crop.endOfFlowering()), new Advice.AuthorityDecides()));
    }

    private static Measured.Interval interval(SheddingDays.Shares shares) {
      return Findings.measured(
          ExactBinomial.interval(shares.shedding(), shares.plants(), CONFIDENCE));
    }

    private List<Evidence> owed(SheddingDays days, SheddingDays.Shares inFlower, Limit limit) {
      List<Evidence> owed = new ArrayList<>();
      if (!size.isEnough(days.countedInFlower())) {
        owed.add(new Evidence.CountFromStage(size.leastAmount(), FloweringWindow.FIRST_STAGE));
      } else if (!limit.holds(inFlower.worse())) {
        owed.add(new Evidence.SheddingCount());
      }
      if (days.hideAFailedDay()) {
        owed.add(new Evidence.FloweringDays());
      }
      return owed;
    }

    private List<Finding> why(
        List<Visit> visits, SheddingDays days, SheddingDays.Shares inFlower, Limit limit) {
      return Stream.of(
              visits.stream().anyMatch(visit -> !visit.isInFlower())
                      || !limit.holds(inFlower.worse())
                  ? List.<Finding>of(new SheddingFinding.NotInFlowerYet())
                  : List.<Finding>of(),
              size.tooSmall(days.countedInFlower()),
              days.hideAFailedDay()
                  ? List.<Finding>of(new SheddingFinding.DaysUnknown())
                  : List.<Finding>of())
          .flatMap(List::stream)
          .toList();
    }

    private static Optional<Finding> ofAll(
        SheddingDays.Shares inFlower, SheddingDays.Shares ofAll) {
      return ofAll.plants() == inFlower.plants()
          ? Optional.empty()
          : Optional.of(
              new SheddingFinding.OfAllPlants(
                  Amount.percent(100 * ofAll.overPlants()), ofAll.plants()));
    }

    private static Optional<Finding> overTheDays(SheddingDays.Shares shares) {
      return shares
          .overDays()
          .filter(share -> share > shares.overPlants())
          .map(
              share ->
                  new SheddingFinding.OverTheDays(
                      Amount.percent(100 * share), shares.daysOfFlowering()));
    }
  }

  private static GateAspect at(String key, Aspect aspect) {
    return GateAspect.of(Gate.SHEDDING_FEMALES, key, aspect);
  }
}
