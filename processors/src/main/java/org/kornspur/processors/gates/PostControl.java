package org.kornspur.processors.gates;

import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.kornspur.contract.PostControlResult;
import org.kornspur.ingest.intake.Counted;
import org.kornspur.processors.dossier.Dossier;
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
  private static final String REMEDY =
      "Stop the lot and all that came of it, and tell the certification authority, which decides.";

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
    count(
            lot,
            result,
            "off-types",
            "plant(s) not true to type",
            result.getOffTypePlants(),
            offTypes)
        .ifPresent(verdicts::add);
    count(
            lot,
            result,
            "shedding plants",
            "plant( that sheds|s that shed) pollen",
            result.getSheddingPlants(),
            lot.limit(Quantity.POST_CONTROL_SHEDDING))
        .ifPresent(verdicts::add);
    count(
            lot,
            result,
            "non-hybrids",
            "plant( that is|s that are) no hybrid",
            result.getNonHybridPlants(),
            lot.limit(Quantity.POST_CONTROL_NON_HYBRIDS))
        .ifPresent(verdicts::add);
    return verdicts;
  }

  private static Verdict identity(PostControlResult result) {
    String aspect = "identity, " + named(result);
    List<String> factIds = List.of(result.getHeader().getFactId());
    return result.getIdentityConfirmed()
        ? new Verdict.Met(
            Gate.POST_CONTROL,
            aspect,
            new Measured(0, "denials", 0, Optional.empty()),
            Optional.empty(),
            factIds,
            "Post-control by %s confirms that the lot is what it is called."
                .formatted(named(result)))
        : new Verdict.NotMet(
            Gate.POST_CONTROL,
            aspect,
            new Measured(1, "denials", -1, Optional.empty()),
            Optional.empty(),
            factIds,
            "Post-control by %s finds that the lot is not what it is called. %s"
                .formatted(named(result), REMEDY));
  }

  private static Optional<Verdict> count(
      SeedLot lot,
      PostControlResult result,
      String aspect,
      String what,
      Integer found,
      Optional<Limit> limit) {
    Optional<Limit> risk = lot.limit(Quantity.POST_CONTROL_PRODUCER_RISK);
    if (found == null || limit.isEmpty() || risk.isEmpty()) {
      return Optional.empty();
    }
    String of = aspect + ", " + named(result);
    int plants = result.getPlantsExamined();
    String factId = result.getHeader().getFactId();
    if (found > plants) {
      return Optional.of(
          Finding.impossible(Gate.POST_CONTROL, of, limit.get(), found, plants, what, factId));
    }
    int reject = rejectNumber(plants, limit.get().value(), risk.get().value() / 100);
    return Optional.of(
        new Finding(
                Gate.POST_CONTROL,
                of,
                (double) found / plants,
                Optional.of(Finding.measured(ExactBinomial.interval(found, plants, CONFIDENCE))),
                List.of(factId),
                "Post-control by %s has %s among %d; from %d on it speaks against the standard, at a risk of %s"
                    .formatted(
                        named(result),
                        Counted.of(found, what),
                        plants,
                        reject,
                        risk.get().wording().replaceFirst("^at most ", "")))
            .decided(found < reject, (double) (reject - 1 - found) / plants, limit.get(), REMEDY));
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
                    "at most %s off-types".formatted(Wording.percent((100 - purity) / 100)),
                    "stated",
                    lot.rulebook().edition(),
                    "varietal purity that breeder or authority states for this material",
                    "fact " + result.getHeader().getFactId(),
                    LocalDate.ofInstant(result.getHeader().getHappenedAt(), ZoneOffset.UTC),
                    Optional.empty(),
                    true,
                    "",
                    Optional.empty()));
  }

  private static String named(PostControlResult result) {
    return switch (result.getMethod()) {
      case PLOT -> "plot " + result.getPlotOrTestId();
      case MARKER -> "marker test " + result.getPlotOrTestId();
    };
  }
}
