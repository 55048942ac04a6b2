package org.kornspur.processors.gates;

import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.kornspur.contract.PostControlMethod;
import org.kornspur.contract.PostControlResult;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.finding.Advice;
import org.kornspur.processors.finding.Aspect;
import org.kornspur.processors.finding.PostControlFinding;
import org.kornspur.processors.finding.Thing;
import org.kornspur.processors.gates.Found.At;
import org.kornspur.processors.standards.Limit;
import org.kornspur.processors.standards.Quantity;
import org.kornspur.processors.standards.Rulebook;
import org.kornspur.processors.statistics.ExactBinomial;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Measured;
import org.kornspur.processors.verdict.Verdict;

/**
 * Plants of a lot grown in a control plot or told apart by markers: identity, off-types, plants
 * that shed though they should be sterile, plants that are no hybrid.
 *
 * <p>A lot fails a count from the reject number on: the fewest plants that a lot just at the
 * standard shows with no more than the producer's risk, exact binomial, as the OECD guidelines for
 * control plots do. The standard is what breeder or authority states for the material, else that of
 * the rulebook. While nobody has grown the lot, nothing is owed for the lot itself.
 */
final class PostControl implements GateRule {
  private static final double CONFIDENCE = 0.95;

  @Override
  public Gate gate() {
    return Gate.POST_CONTROL;
  }

  @Override
  public List<Verdict> judge(Dossier dossier, Rulebook rulebook) {
    return SeedLot.of(dossier, rulebook)
        .map(
            lot ->
                dossier.facts(PostControlResult.class).stream()
                    .flatMap(result -> judge(lot, result).stream())
                    .toList())
        .orElse(List.of());
  }

  private static List<Verdict> judge(SeedLot lot, PostControlResult result) {
    List<Verdict> verdicts = new ArrayList<>();
    verdicts.add(identity(result));
    Optional<Limit> offTypes =
        stated(lot, result).or(() -> lot.limit(Quantity.POST_CONTROL_OFF_TYPES));
    count(lot, result, "off-types", Thing.OFF_TYPES, result.getOffTypePlants(), offTypes)
        .ifPresent(verdicts::add);
    count(
            lot,
            result,
            "shedding plants",
            Thing.SHEDDING_PLANTS,
            result.getSheddingPlants(),
            lot.limit(Quantity.POST_CONTROL_SHEDDING))
        .ifPresent(verdicts::add);
    count(
            lot,
            result,
            "non-hybrids",
            Thing.NON_HYBRIDS,
            result.getNonHybridPlants(),
            lot.limit(Quantity.POST_CONTROL_NON_HYBRIDS))
        .ifPresent(verdicts::add);
    return verdicts;
  }

  private static Verdict identity(PostControlResult result) {
    boolean confirmed = result.getIdentityConfirmed();
    PostControlMethod method = result.getMethod();
    String test = result.getPlotOrTestId();
    return Found.of(
            At.aspect(
                Gate.POST_CONTROL, "identity, " + key(result), new Aspect.Identity(method, test)),
            List.of(result.getHeader().getFactId()),
            confirmed
                ? new PostControlFinding.IdentityConfirmed(method, test)
                : new PostControlFinding.IdentityDenied(method, test))
        .decided(
            confirmed,
            confirmed
                ? new Measured(0, "denials", 0, Optional.empty())
                : new Measured(1, "denials", -1, Optional.empty()),
            Optional.empty(),
            List.of(new Advice.StopAndTell(), new Advice.AuthorityDecides()));
  }

  private static Optional<Verdict> count(
      SeedLot lot,
      PostControlResult result,
      String key,
      Thing what,
      Integer found,
      Optional<Limit> limit) {
    Optional<Limit> risk = lot.limit(Quantity.POST_CONTROL_PRODUCER_RISK);
    if (found == null || limit.isEmpty() || risk.isEmpty()) {
      return Optional.empty();
    }
    At at =
        At.aspect(
            Gate.POST_CONTROL,
            key + ", " + key(result),
            new Aspect.PostControl(
                limit.get().quantity(), result.getMethod(), result.getPlotOrTestId()));
    int plants = result.getPlantsExamined();
    String factId = result.getHeader().getFactId();
    if (found > plants) {
      return Optional.of(Found.impossible(at, limit.get(), what, found, plants, factId));
    }
    int reject = rejectNumber(plants, limit.get().value(), risk.get().value() / 100);
    return Optional.of(
        Found.of(
                at,
                List.of(factId),
                new PostControlFinding.Counted(
                    result.getMethod(),
                    result.getPlotOrTestId(),
                    limit.get().quantity(),
                    found,
                    plants),
                new PostControlFinding.RejectedFrom(reject, Amount.percent(risk.get().value())))
            .decided(
                found < reject,
                new Measured(
                    (double) found / plants,
                    limit.get().unit(),
                    (double) (reject - 1 - found) / plants,
                    Optional.of(Found.measured(ExactBinomial.interval(found, plants, CONFIDENCE)))),
                limit.get(),
                List.of(new Advice.StopAndTell(), new Advice.AuthorityDecides())));
  }

  /** No plant at all is allowed where the standard allows none. */
  private static int rejectNumber(int plants, double standard, double risk) {
    return standard <= 0 ? 1 : ExactBinomial.rejectNumber(plants, standard, risk);
  }

  /** The standard that breeder or authority states for this material, as a limit. */
  private static Optional<Limit> stated(SeedLot lot, PostControlResult result) {
    return Optional.ofNullable(result.getStatedPurityPercent())
        .map(
            purity ->
                new Limit(
                    Quantity.POST_CONTROL_OFF_TYPES,
                    Limit.Sense.AT_MOST,
                    (100 - purity) / 100,
                    Quantity.POST_CONTROL_OFF_TYPES.unit(),
                    Limit.Stated.plain((100 - purity) / 100),
                    Limit.STATED,
                    lot.rulebook().edition(),
                    "",
                    "",
                    LocalDate.ofInstant(result.getHeader().getHappenedAt(), ZoneOffset.UTC),
                    Optional.empty(),
                    true,
                    "",
                    Optional.empty()));
  }

  private static String key(PostControlResult result) {
    return switch (result.getMethod()) {
      case PLOT -> "plot " + result.getPlotOrTestId();
      case MARKER -> "marker test " + result.getPlotOrTestId();
    };
  }
}
