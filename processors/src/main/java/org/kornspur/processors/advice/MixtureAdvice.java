package org.kornspur.processors.advice;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.kornspur.contract.ShareBasis;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.processors.dossier.SeedMeasures;
import org.kornspur.processors.finding.Part;
import org.kornspur.processors.statistics.BlendCalculator;
import org.kornspur.processors.statistics.BlendCalculator.Portion;
import org.kornspur.processors.statistics.BlendCalculator.Result;
import org.kornspur.processors.statistics.BlendCalculator.Stock;
import org.kornspur.processors.statistics.Estimate;
import org.kornspur.processors.statistics.Interval;
import org.kornspur.processors.statistics.PollinatorShare;
import org.kornspur.processors.verdict.Fitness;

/**
 * Kilograms of each lot for a technical mixture, out of lots that are fit and in stock. Advice, not
 * a gate: the blend is judged when it is recorded. One class because what is mixed, what comes out
 * and why it cannot be done are found in one search.
 *
 * @param request what was asked for
 * @param portions what to mix, in the order given; empty where it cannot be done
 * @param mixture what comes out; empty where it cannot be done
 * @param refusal why it cannot be done and what to do; empty where it can
 * @param mostKg the most that could be mixed within the tolerance; that asked for where it can
 * @param passedOver candidates that were not used at all, each with the reason
 */
public record MixtureAdvice(
    Request request,
    List<Portion> portions,
    Optional<Mixture> mixture,
    Optional<MixtureStatement> refusal,
    double mostKg,
    List<PassedOver> passedOver) {
  private static final double CONFIDENCE = 0.95;
  private static final int HALVINGS = 30;

  /**
   * A mixture that is wanted.
   *
   * @param hybridId the hybrid
   * @param massKg mass wanted, kilograms
   * @param targetPercent share of pollinator aimed at, percent on {@code basis}
   * @param tolerancePercentPoints how far it may lie off where the stock does not allow the target
   * @param basis what it is a share of
   */
  public record Request(
      String hybridId,
      double massKg,
      double targetPercent,
      double tolerancePercentPoints,
      ShareBasis basis) {

    /**
     * @throws IllegalArgumentException where the numbers make no mixture
     */
    public Request {
      if (!(massKg > 0) || Double.isInfinite(massKg)) {
        throw new AdviceRefusedException(new AdviceRefusal.NoMass(Amount.kilograms(massKg)));
      }
      if (!(targetPercent > 0 && targetPercent < 100)) {
        throw new AdviceRefusedException(
            new AdviceRefusal.ShareOutside(Amount.percent(targetPercent)));
      }
      if (!(tolerancePercentPoints >= 0)) {
        throw new AdviceRefusedException(
            new AdviceRefusal.NegativeTolerance(Amount.percentagePoints(tolerancePercentPoints)));
      }
    }
  }

  /**
   * A lot that may be used.
   *
   * @param lotId id of the lot
   * @param pollinator whether it is pollinator; female otherwise
   * @param state its standing
   * @param leftKg mass that is left of it, kilograms
   * @param measures thousand-kernel weight and germination, as far as known
   */
  public record Candidate(
      String lotId, boolean pollinator, Fitness state, double leftKg, SeedMeasures measures) {}

  /** A candidate that was not used, and why. */
  public record PassedOver(String lotId, MixtureStatement reason) {}

  /**
   * What comes out.
   *
   * @param share share of pollinator on each basis that the tests allow, from 0 to 1
   * @param interval its 95 % interval, from the errors of thousand-kernel weight and germination
   * @param offTarget true where the stock forced the share off the target, within the tolerance
   */
  public record Mixture(
      Map<ShareBasis, Double> share, Map<ShareBasis, Interval> interval, boolean offTarget) {}

  /**
   * The advice.
   *
   * @param candidates lots that may be used, those to be used first in front
   */
  public static MixtureAdvice of(Request request, List<Candidate> candidates) {
    List<PassedOver> passedOver = new ArrayList<>();
    List<Candidate> usable = new ArrayList<>();
    for (Candidate candidate : candidates) {
      reasonAgainst(candidate, request.basis())
          .ifPresentOrElse(
              reason -> passedOver.add(new PassedOver(candidate.lotId(), reason)),
              () -> usable.add(candidate));
    }
    return new Stockroom(request, usable).advice(List.copyOf(passedOver));
  }

  private static Optional<MixtureStatement> reasonAgainst(Candidate candidate, ShareBasis basis) {
    Subject lot = Subject.lot(candidate.lotId());
    if (candidate.state() != Fitness.FIT) {
      return Optional.of(
          candidate.state() == Fitness.NOT_FIT
              ? new MixtureStatement.NotFit(lot)
              : new MixtureStatement.EvidenceOwed(lot));
    }
    if (!(candidate.leftKg() > 0)) {
      return Optional.of(
          new MixtureStatement.NothingLeft(lot, Amount.kilograms(candidate.leftKg())));
    }
    if (basis != ShareBasis.MASS && candidate.measures().thousandKernelWeightG().isEmpty()) {
      return Optional.of(new MixtureStatement.NoKernelWeight(lot));
    }
    if (basis != ShareBasis.VIABLE_KERNELS) {
      return Optional.empty();
    }
    Optional<Double> germination =
        candidate.measures().germinationPercent().map(SeedMeasures.Mean::mean);
    if (germination.isEmpty()) {
      return Optional.of(new MixtureStatement.NoGermination(lot));
    }
    boolean isUsable = germination.get() > 0 && germination.get() <= 100;
    return isUsable
        ? Optional.empty()
        : Optional.of(
            new MixtureStatement.UnusableGermination(lot, Amount.percent(germination.get())));
  }

  /** Fit lots with what the basis needs to know of them. */
  private record Stockroom(Request request, List<Candidate> lots) {

    MixtureAdvice advice(List<PassedOver> passedOver) {
      double target = request.targetPercent() / 100;
      double best = bestWithin(target);
      Result atTarget = mix(target);
      Result atBest = atTarget instanceof Result.Mixture ? atTarget : mix(best);
      if (atBest instanceof Result.Infeasible refused) {
        return new MixtureAdvice(
            request,
            List.of(),
            Optional.empty(),
            Optional.of(refusal(refused.mostKg())),
            refused.mostKg(),
            passedOver);
      }
      boolean offTarget = atTarget instanceof Result.Infeasible;
      Result.Mixture found =
          offTarget ? nearest(target, best, (Result.Mixture) atBest) : (Result.Mixture) atBest;
      return new MixtureAdvice(
          request,
          found.portions(),
          Optional.of(mixture(found, offTarget)),
          Optional.empty(),
          request.massKg(),
          passedOver);
    }

    private Result mix(double share) {
      return BlendCalculator.mix(
          lots.stream().map(lot -> stock(lot)).toList(), request.massKg(), share);
    }

    /**
     * The share within the tolerance at which most can be mixed: all lots used up, or as near to
     * that as the tolerance reaches.
     */
    private double bestWithin(double target) {
      double pollinator = amount(true);
      double all = pollinator + amount(false);
      double usingAllUp = all == 0 ? target : pollinator / all;
      double tolerance = request.tolerancePercentPoints() / 100;
      double clamped = Math.min(target + tolerance, Math.max(target - tolerance, usingAllUp));
      return Math.min(1 - 1e-6, Math.max(1e-6, clamped));
    }

    /** Halves between what cannot and what can be mixed; the farther off, the more can be. */
    private Result.Mixture nearest(double refused, double mixed, Result.Mixture found) {
      double out = refused;
      double in = mixed;
      Result.Mixture nearest = found;
      for (int i = 0; i < HALVINGS; i++) {
        double middle = (out + in) / 2;
        if (mix(middle) instanceof Result.Mixture here) {
          nearest = here;
          in = middle;
        } else {
          out = middle;
        }
      }
      return nearest;
    }

    private MixtureStatement refusal(double mostKg) {
      MixtureStatement.Wanted wanted =
          new MixtureStatement.Wanted(
              Amount.kilograms(request.massKg()),
              Amount.percent(request.targetPercent()),
              request.basis(),
              Amount.percentagePoints(request.tolerancePercentPoints()));
      for (boolean pollinator : new boolean[] {false, true}) {
        if (lots.stream().noneMatch(lot -> lot.pollinator() == pollinator)) {
          return new MixtureStatement.NoLot(wanted, part(pollinator));
        }
      }
      double share = bestWithin(request.targetPercent() / 100);
      boolean pollinatorShort = amount(true) * (1 - share) < amount(false) * share;
      return new MixtureStatement.RunsOut(
          wanted,
          part(pollinatorShort),
          Amount.kilograms(atHandKg(false)),
          Amount.kilograms(atHandKg(true)),
          Amount.kilograms(roundedDown(mostKg)));
    }

    /** To ten grams, so that what is said to be possible is. */
    private static double roundedDown(double massKg) {
      return Math.floor(massKg * 100) / 100;
    }

    private static Part part(boolean pollinator) {
      return pollinator ? Part.POLLINATOR : Part.FEMALE;
    }

    private Mixture mixture(Result.Mixture found, boolean offTarget) {
      Map<ShareBasis, Double> shares = new EnumMap<>(ShareBasis.class);
      Map<ShareBasis, Interval> intervals = new EnumMap<>(ShareBasis.class);
      for (ShareBasis basis : ShareBasis.values()) {
        parts(found, basis)
            .map(parts -> PollinatorShare.of(parts, basis))
            .ifPresent(
                share -> {
                  shares.put(basis, share.share());
                  intervals.put(basis, share.interval(CONFIDENCE));
                });
      }
      return new Mixture(shares, intervals, offTarget);
    }

    /** Empty where a test that the basis takes is missing. */
    private Optional<List<PollinatorShare.Part>> parts(Result.Mixture found, ShareBasis basis) {
      List<PollinatorShare.Part> parts = new ArrayList<>();
      for (Portion portion : found.portions()) {
        Candidate lot =
            lots.stream().filter(l -> l.lotId().equals(portion.lotId())).findFirst().orElseThrow();
        if (reasonAgainst(lot, basis).isPresent()) {
          return Optional.empty();
        }
        parts.add(
            new PollinatorShare.Part(
                lot.pollinator(),
                Estimate.exact(portion.massKg()),
                basis == ShareBasis.MASS
                    ? Estimate.exact(1)
                    : estimate(lot.measures().thousandKernelWeightG(), 1),
                basis == ShareBasis.VIABLE_KERNELS
                    ? estimate(lot.measures().germinationPercent(), 100)
                    : Estimate.exact(1)));
      }
      return Optional.of(parts);
    }

    /** On a basis that does not ask for weight or germination these stand at 1 for every lot. */
    private Stock stock(Candidate lot) {
      double weightG =
          request.basis() == ShareBasis.MASS
              ? 1
              : estimate(lot.measures().thousandKernelWeightG(), 1).value();
      double germination =
          request.basis() == ShareBasis.VIABLE_KERNELS
              ? estimate(lot.measures().germinationPercent(), 100).value()
              : 1;
      return new Stock(lot.lotId(), lot.pollinator(), lot.leftKg(), weightG, germination);
    }

    private double amount(boolean pollinator) {
      return lots.stream()
          .filter(lot -> lot.pollinator() == pollinator)
          .map(this::stock)
          .mapToDouble(s -> s.stockKg() / s.thousandKernelWeightG() * s.germination())
          .sum();
    }

    private double atHandKg(boolean pollinator) {
      return lots.stream()
          .filter(lot -> lot.pollinator() == pollinator)
          .mapToDouble(Candidate::leftKg)
          .sum();
    }

    private static Estimate estimate(Optional<SeedMeasures.Mean> measured, double per) {
      return measured
          .map(found -> new Estimate(found.mean() / per, found.standardError() / per))
          .orElseThrow();
    }
  }
}
