package org.kornspur.processors.gates;

import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.kornspur.contract.CropRole;
import org.kornspur.contract.SterilityCheck;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.finding.Advice;
import org.kornspur.processors.finding.Aspect;
import org.kornspur.processors.finding.Evidence;
import org.kornspur.processors.finding.Finding;
import org.kornspur.processors.finding.SheddingFinding;
import org.kornspur.processors.finding.SterilityFinding;
import org.kornspur.processors.finding.Thing;
import org.kornspur.processors.gates.Findings.GateAspect;
import org.kornspur.processors.ground.FloweringWindow;
import org.kornspur.processors.standards.Limit;
import org.kornspur.processors.standards.Quantity;
import org.kornspur.processors.standards.Rulebook;
import org.kornspur.processors.statistics.ExactBinomial;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Verdict;

/**
 * Sterility of the female, percent, by plants examined in flower and by ears bagged before it.
 *
 * <p>Seed Ordinance (SaatV), Annex 2 no. 1.4.2.1: at least 98 % when basic seed of the female
 * component is made. Of checks on several days plants count by the days on which they shed ({@link
 * SheddingDays}), and ears by the worst day, those with too few ears together, so that nothing
 * found vanishes behind later checks. Plants that were examined while the crop does not flower show
 * nothing, nor do ears before its end; too few owe a larger check. All this is common practice, no
 * source.
 */
final class FemaleSterilityGate implements GateRule {
  private static final double CONFIDENCE = 0.95;

  @Override
  public List<Verdict> judge(Dossier dossier, Rulebook rulebook) {
    return SeedCrop.of(dossier, rulebook)
        .filter(crop -> hasSterileFemale(crop.role()))
        .flatMap(
            crop ->
                crop.limit(Quantity.FEMALE_STERILITY)
                    .map(limit -> judge(crop, dossier.facts(SterilityCheck.class), limit)))
        .orElse(List.of());
  }

  static boolean hasSterileFemale(CropRole role) {
    return switch (role) {
      case STERILE_FEMALE, F1_MIXTURE -> true;
      case MAINTAINER, POLLINATOR, FERTILE_LINE -> false;
    };
  }

  private static List<Verdict> judge(SeedCrop crop, List<SterilityCheck> checks, Limit limit) {
    Examined plants = Examined.of(crop, limit, Kind.PLANTS, checks);
    Examined ears = Examined.of(crop, limit, Kind.EARS, checks);
    List<Verdict> verdicts =
        Stream.of(plants.verdict(ears.isEnough()), ears.verdict(plants.isEnough()))
            .flatMap(Optional::stream)
            .toList();
    return verdicts.isEmpty()
        ? List.of(Findings.missing(Gate.FEMALE_STERILITY, limit, new Evidence.SterilityCheck()))
        : verdicts;
  }

  private enum Kind {
    PLANTS("plants in flower", new Aspect.PlantsInFlower(), Quantity.EXAMINED_PLANTS),
    EARS("bagged ears", new Aspect.BaggedEars(), Quantity.BAGGED_EARS);

    private final GateAspect at;
    private final Quantity least;

    Kind(String key, Aspect aspect, Quantity least) {
      this.at = GateAspect.of(Gate.FEMALE_STERILITY, key, aspect);
      this.least = least;
    }

    Tally tally(SterilityCheck check) {
      return switch (this) {
        case PLANTS -> new Tally(check.getPlantsShedding(), check.getPlantsExamined());
        case EARS ->
            check.getBaggedEars() == null || check.getBaggedEarsWithSeed() == null
                ? new Tally(0, 0)
                : new Tally(check.getBaggedEarsWithSeed(), check.getBaggedEars());
      };
    }

    Tally tally(List<SterilityCheck> checks) {
      return checks.stream().map(this::tally).reduce(new Tally(0, 0), Tally::with);
    }

    Thing whatFails() {
      return switch (this) {
        case PLANTS -> Thing.SHEDDING_PLANTS;
        case EARS -> Thing.BAGGED_EARS_WITH_SEED;
      };
    }

    SterilityFinding finding(Tally tally) {
      Amount sterile = Amount.percent(tally.percent());
      return switch (this) {
        case PLANTS -> new SterilityFinding.Plants(sterile, tally.failing(), tally.examined());
        case EARS -> new SterilityFinding.BaggedEars(sterile, tally.failing(), tally.examined());
      };
    }
  }

  private record Tally(int failing, int examined) {
    Tally with(Tally other) {
      return new Tally(
          Math.addExact(failing, other.failing), Math.addExact(examined, other.examined));
    }

    double percent() {
      return 100.0 * (examined - failing) / examined;
    }
  }

  /** Sterility that is worse than that of all checks together. */
  private record Worse(double percent, Finding why) {}

  /** Plants or ears of all checks. */
  private record Examined(SeedCrop crop, Limit limit, Kind kind, List<SterilityCheck> checks) {

    static Examined of(SeedCrop crop, Limit limit, Kind kind, List<SterilityCheck> checks) {
      return new Examined(
          crop,
          limit,
          kind,
          crop.counting(
              checks.stream().filter(check -> kind.tally(check).examined() > 0).toList(),
              check -> !limit.holds(kind.tally(check).percent())));
    }

    /** Whether enough was examined, at a time when it shows. */
    boolean isEnough() {
      return !checks.isEmpty() && size().isEnough(kind.tally(telling()).examined());
    }

    /** Too few that do not fail say nothing where enough of the other kind do. */
    Optional<Verdict> verdict(boolean othersAreEnough) {
      for (SterilityCheck check : checks) {
        Tally tally = kind.tally(check);
        if (tally.failing() > tally.examined()) {
          return Optional.of(
              Findings.impossible(
                  kind.at,
                  limit,
                  kind.whatFails(),
                  tally.failing(),
                  tally.examined(),
                  check.getHeader().getFactId()));
        }
      }
      return checks.isEmpty() ? Optional.empty() : judged(othersAreEnough);
    }

    private Optional<Verdict> judged(boolean othersAreEnough) {
      Tally all = kind.tally(checks);
      Optional<Worse> worse = worse().filter(each -> each.percent() < all.percent());
      double percent = worse.map(Worse::percent).orElse(all.percent());
      Findings found =
          Findings.of(kind.at, FactType.idsOf(checks), kind.finding(all))
              .and(worse.map(Worse::why))
              .and(SampleSize.riskOfShare(all.examined(), 1 - limit.value() / 100));
      if (limit.holds(percent) && kind == Kind.PLANTS && days().hideAFailedDay()) {
        return Optional.of(
            found.and(new SheddingFinding.DaysUnknown()).owed(limit, new Evidence.FloweringDays()));
      }
      if (limit.holds(percent) && !isEnough()) {
        return othersAreEnough ? Optional.empty() : Optional.of(owed(found));
      }
      return Optional.of(
          found.against(
              percent,
              Optional.of(
                  Findings.measuredPercent(
                      ExactBinomial.interval(
                          all.examined() - all.failing(), all.examined(), CONFIDENCE))),
              limit,
              List.of(
                  new Advice.RemoveSheddingAndCheck(crop.endOfFlowering()),
                  new Advice.AuthorityDecides())));
    }

    private Optional<Worse> worse() {
      return switch (kind) {
        case PLANTS -> {
          SheddingDays.Shares shares = days().inFlower();
          yield shares
              .overDays()
              .map(share -> 100 - 100 * share)
              .map(
                  percent ->
                      new Worse(
                          percent,
                          new SheddingFinding.OverTheDays(
                              Amount.percent(percent), shares.daysOfFlowering())));
        }
        case EARS -> worstEars().map(tally -> new Worse(tally.percent(), kind.finding(tally)));
      };
    }

    /** Of the days on which enough were read, and of those with too few together. */
    private Optional<Tally> worstEars() {
      Map<Boolean, List<Tally>> days =
          checks.stream().collect(Collectors.groupingBy(FactType::dayOf)).values().stream()
              .map(kind::tally)
              .collect(Collectors.partitioningBy(day -> size().isEnough(day.examined())));
      return Stream.concat(
              days.get(true).stream(), days.get(false).stream().reduce(Tally::with).stream())
          .min(Comparator.comparingDouble(Tally::percent).thenComparingInt(Tally::examined));
    }

    private SheddingDays days() {
      return new SheddingDays(
          checks.stream().map(SheddingDays.Count::of).toList(),
          size(),
          share -> limit.holds(100 - 100 * share),
          crop.declaredFlowering(),
          crop.flowering());
    }

    private Verdict owed(Findings found) {
      List<SterilityCheck> telling = telling();
      int outOfTime = checks.size() - telling.size();
      Findings thin =
          outOfTime == 0
              ? found
              : found.and(
                  switch (kind) {
                    case PLANTS -> new SterilityFinding.NotInFlower(outOfTime);
                    case EARS -> new SterilityFinding.EarsReadTooEarly(outOfTime);
                  });
      return thin.and(size().tooSmall(kind.tally(telling).examined()))
          .owed(
              limit,
              asksForDays()
                  ? new Evidence.FloweringDays()
                  : new Evidence.LargerCount(size().leastAmount()));
    }

    /** Where enough plants were examined, when the crop flowers is what is not known. */
    private boolean asksForDays() {
      return !crop.flowering().isKnown()
          || (kind == Kind.PLANTS && size().isEnough(kind.tally(checks).examined()));
    }

    private SampleSize size() {
      return new SampleSize(crop.limit(kind.least));
    }

    /**
     * A plant shows whether it sheds while the crop flowers by its declaration, or between two
     * looks that found it in flower, be they of the same day; a bagged ear shows its seed once
     * nobody sees it flower more.
     */
    private List<SterilityCheck> telling() {
      return switch (kind) {
        case PLANTS -> {
          FloweringWindow seen = FemaleInFlower.of(crop);
          yield checks.stream()
              .filter(
                  check ->
                      crop.declaredFlowering().holds(FactType.dayOf(check))
                          || seen.holds(FactType.dayOf(check)))
              .toList();
        }
        case EARS ->
            checks.stream()
                .filter(
                    check ->
                        crop.flowering()
                            .to()
                            .filter(to -> !FactType.dayOf(check).isBefore(to))
                            .isPresent())
                .toList();
      };
    }
  }
}
