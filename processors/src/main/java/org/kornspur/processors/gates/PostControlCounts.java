package org.kornspur.processors.gates;

import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.function.BinaryOperator;
import java.util.function.IntFunction;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.kornspur.contract.PostControlMethod;
import org.kornspur.contract.PostControlResult;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.processors.dossier.MethodErrors;
import org.kornspur.processors.finding.Advice;
import org.kornspur.processors.finding.Aspect;
import org.kornspur.processors.finding.Evidence;
import org.kornspur.processors.finding.PostControlFinding;
import org.kornspur.processors.finding.Thing;
import org.kornspur.processors.gates.Findings.GateAspect;
import org.kornspur.processors.standards.Limit;
import org.kornspur.processors.standards.Quantity;
import org.kornspur.processors.statistics.ExactBinomial;
import org.kornspur.processors.statistics.MarkerCorrection;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Measured;
import org.kornspur.processors.verdict.Verdict;

/** What one result counted. */
record PostControlCounts(SeedLot lot, PostControlResult result, SampleSize size) {
  /** Most plants that may be called bad where the standard is this share of so many. */
  private interface MostAt {
    int of(double share, int plants);
  }

  List<Verdict> verdicts() {
    Optional<Limit> femaleOffTypes = ofFemale(Quantity.POST_CONTROL_FEMALE_OFF_TYPES);
    Optional<Limit> femaleShedding = ofFemale(Quantity.POST_CONTROL_FEMALE_SHEDDING);
    Optional<Limit> text = femaleOffTypes.or(() -> lot.limit(Quantity.POST_CONTROL_OFF_TYPES));
    Optional<Limit> offTypes =
        stated(lot, result)
            .filter(stated -> text.map(limit -> stated.value() <= limit.value()).orElse(true))
            .or(() -> text.filter(limit -> femaleOffTypes.isEmpty()));
    Optional<Limit> shedding =
        femaleShedding.isPresent() ? Optional.empty() : lot.limit(Quantity.POST_CONTROL_SHEDDING);
    return Stream.of(
            Optional.of(PostControlGate.identity(result)),
            counted("off-types", Thing.OFF_TYPES, result.getOffTypePlants(), offTypes),
            share(
                "off-types of the female",
                Thing.OFF_TYPES,
                result.getOffTypePlants(),
                femaleOffTypes),
            counted("shedding plants", Thing.SHEDDING_PLANTS, result.getSheddingPlants(), shedding)
                .or(() -> sheddingNotCounted("shedding plants", shedding)),
            share(
                    "shedding plants of the female",
                    Thing.SHEDDING_PLANTS,
                    result.getSheddingPlants(),
                    femaleShedding)
                .or(() -> sheddingNotCounted("shedding plants of the female", femaleShedding)),
            counted(
                "non-hybrids",
                Thing.NON_HYBRIDS,
                result.getNonHybridPlants(),
                lot.limit(Quantity.POST_CONTROL_NON_HYBRIDS)))
        .flatMap(Optional::stream)
        .toList();
  }

  private PlantsGrown plants() {
    return new PlantsGrown(lot, result);
  }

  /** The limit of the female component; where the scheme is not known, shedding tells it. */
  private Optional<Limit> ofFemale(Quantity quantity) {
    return plants().areFemale() ? lot.limit(quantity) : Optional.empty();
  }

  /** By reject number. */
  private Optional<Verdict> counted(String key, Thing what, Integer found, Optional<Limit> limit) {
    return lot.limit(Quantity.POST_CONTROL_PRODUCER_RISK)
        .flatMap(
            risk ->
                limit.flatMap(
                    standard ->
                        verdict(
                            key,
                            what,
                            found,
                            standard,
                            (share, plants) -> rejectNumber(share, risk.value() / 100, plants) - 1,
                            most ->
                                new PostControlFinding.RejectedFrom(
                                    most + 1, Amount.percent(risk.value())))));
  }

  /**
   * Post-control of a female component looks at male sterility too; whether it is one, its hybrid
   * must say.
   */
  private Optional<Verdict> sheddingNotCounted(String key, Optional<Limit> limit) {
    return limit
        .filter(standard -> plants().areFemale() || plants().areOfUnknownKind())
        .filter(standard -> result.getSheddingPlants() == null)
        .filter(standard -> !isCountedWell(Thing.SHEDDING_PLANTS, standard))
        .map(
            standard ->
                Findings.missing(
                    at(key, standard),
                    standard,
                    plants().areFemale()
                        ? new Evidence.SheddingInPostControl()
                        : new Evidence.MasterData(Subject.hybrid(lot.material().hybridId()))));
  }

  /** By the share itself. */
  private Optional<Verdict> share(String key, Thing what, Integer found, Optional<Limit> limit) {
    int plants = result.getPlantsExamined();
    return limit.flatMap(
        standard ->
            verdict(
                key,
                what,
                found,
                standard,
                SampleSize::mostBad,
                most -> new PostControlFinding.Share(Amount.percent(100.0 * found / plants))));
  }

  /**
   * A verdict on one count.
   *
   * @param mostAt how many plants may be called bad
   */
  private Optional<Verdict> verdict(
      String key,
      Thing what,
      Integer found,
      Limit limit,
      MostAt mostAt,
      IntFunction<PostControlFinding> rule) {
    if (found == null) {
      return Optional.empty();
    }
    int plants = result.getPlantsExamined();
    String factId = result.getHeader().getFactId();
    GateAspect at = at(key, limit);
    if (found > plants) {
      return Optional.of(Findings.impossible(at, limit, what, found, plants, factId));
    }
    MethodCount count = new MethodCount(found, plants, MethodErrors.of(result));
    int most = mostAt.of(count.called(limit.value()), plants);
    MarkerCorrection.Share share = count.worse();
    Optional<PostControlFinding> unstated = unstated(what, share.share());
    Findings counted =
        Findings.of(
                at,
                List.of(factId),
                new PostControlFinding.Counted(
                    result.getMethod(), result.getPlotOrTestId(), limit.quantity(), found, plants),
                rule.apply(most))
            .and(count.findings(limit.value()))
            .and(unstated)
            .and(SampleSize.risk(plants, most, limit.value(), count::called));
    List<Evidence> owed =
        found <= most ? owed(count, limit, isEnoughTogether(what, limit, mostAt)) : List.of();
    if (!owed.isEmpty()) {
      return isCountedWell(what, limit) || isNoWant(count, limit)
          ? Optional.empty()
          : Optional.of(
              counted
                  .and(size.tooSmall(count.telling()))
                  .owed(Optional.of(limit), owed, List.of()));
    }
    Verdict verdict =
        counted.decided(
            found <= most,
            new Measured(
                share.share(),
                limit.unit(),
                (double) (most - found) / plants,
                Optional.of(Findings.measured(share.interval()))),
            limit,
            List.of(new Advice.StopAndTell(), new Advice.AuthorityDecides()));
    return Optional.of(
        unstated.isPresent() ? verdict.with(new Advice.StateShareOfHybrids().coded()) : verdict);
  }

  /** What a count that is within the standard still lacks. */
  private List<Evidence> owed(MethodCount count, Limit limit, boolean enoughTogether) {
    Optional<Evidence> larger =
        size.isEnough(count.telling()) || enoughTogether
            ? Optional.empty()
            : Optional.of(new Evidence.LargerCount(size.leastAmount()));
    return Stream.concat(larger.stream(), count.owed(limit.value()).stream()).toList();
  }

  /**
   * Whether all plots are enough plants together, and hold together: replicates of one plot are
   * sown to be counted as one. Each still fails alone. Common practice, no source.
   */
  private boolean isEnoughTogether(Thing what, Limit limit, MostAt mostAt) {
    if (result.getMethod() != PostControlMethod.PLOT) {
      return false;
    }
    Collection<PostControlResult> plots =
        lot.dossier().facts(PostControlResult.class).stream()
            .filter(each -> each.getMethod() == PostControlMethod.PLOT)
            .filter(each -> countOf(what, each) != null)
            .collect(
                Collectors.toMap(
                    PostControlResult::getPlotOrTestId,
                    plot -> plot,
                    BinaryOperator.maxBy(
                        Comparator.comparingInt((PostControlResult plot) -> countOf(what, plot))
                            .thenComparing(
                                PostControlResult::getPlantsExamined, Comparator.reverseOrder()))))
            .values();
    int plants = plots.stream().mapToInt(PostControlResult::getPlantsExamined).sum();
    int found = plots.stream().mapToInt(plot -> countOf(what, plot)).sum();
    return size.isEnough(plants) && found <= mostAt.of(limit.value(), plants);
  }

  /** Whether a small result is clean, where none is asked for: it makes a lot no worse. */
  private boolean isNoWant(MethodCount count, Limit limit) {
    return lot.limit(Quantity.POST_CONTROL_BEFORE_CERTIFICATION).isEmpty()
        && OwedForFailedPart.toldTo(lot.dossier(), Gate.POST_CONTROL).isEmpty()
        && count.owed(limit.value()).isEmpty()
        && count.found() <= limit.value() * count.examined();
  }

  private GateAspect at(String key, Limit limit) {
    return GateAspect.of(
        Gate.POST_CONTROL,
        key + ", " + PostControlGate.key(result),
        new Aspect.PostControl(limit.quantity(), result.getMethod(), result.getPlotOrTestId()));
  }

  /** Whether any result of the lot counted this among enough plants, and can tell the limit. */
  private boolean isCountedWell(Thing what, Limit limit) {
    return lot.dossier().facts(PostControlResult.class).stream()
        .filter(each -> countOf(what, each) != null)
        .map(
            each ->
                new MethodCount(
                    countOf(what, each), each.getPlantsExamined(), MethodErrors.of(each)))
        .anyMatch(count -> size.isEnough(count.telling()) && count.canTell(limit.value()));
  }

  private static Integer countOf(Thing what, PostControlResult result) {
    return switch (what) {
      case SHEDDING_PLANTS -> result.getSheddingPlants();
      case NON_HYBRIDS -> result.getNonHybridPlants();
      default -> result.getOffTypePlants();
    };
  }

  /** Hybrid seed of which the label must state the share; that is no failure. */
  private Optional<PostControlFinding> unstated(Thing what, double share) {
    return what == Thing.NON_HYBRIDS
        ? lot.limit(Quantity.POST_CONTROL_NON_HYBRIDS_STATED)
            .filter(limit -> !limit.holds(share))
            .map(limit -> new PostControlFinding.ShareOfHybrids(Amount.percent(100 * (1 - share))))
        : Optional.empty();
  }

  /** No plant at all is allowed where the standard allows none. */
  private static int rejectNumber(double standard, double risk, int plants) {
    return standard <= 0 ? 1 : ExactBinomial.rejectNumber(plants, standard, risk);
  }

  /**
   * The standard that breeder or authority states for this material, as a limit. It counts only
   * where it is no looser than the book: whoever states a low purity makes no seed good.
   */
  private static Optional<Limit> stated(SeedLot lot, PostControlResult result) {
    return Optional.ofNullable(result.getStatedPurityPercent())
        .map(
            purity ->
                Limit.givenBy(
                    Limit.STATED,
                    lot.rulebook().edition(),
                    FactType.dayOf(result),
                    Quantity.POST_CONTROL_OFF_TYPES,
                    Limit.Sense.AT_MOST,
                    (100 - purity) / 100));
  }
}
