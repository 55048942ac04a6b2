package org.kornspur.processors.gates;

import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.kornspur.contract.OtherSeedDetermination;
import org.kornspur.contract.PurityTest;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.ingest.statement.Value.Fact;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.finding.Aspect;
import org.kornspur.processors.finding.BasisFinding;
import org.kornspur.processors.finding.Evidence;
import org.kornspur.processors.finding.PurityFinding;
import org.kornspur.processors.gates.Findings.GateAspect;
import org.kornspur.processors.statistics.ExactBinomial;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Verdict;

/**
 * Other seeds by weight in the purity test, held against other seeds by number in the same sample.
 * The weight is taken as so many seeds as speak least against the count, and the seeds of both
 * parts as spread by chance, exact binomial. What chance does in less than one of a thousand
 * samples is a mistake in one of the two: which one is not settled, so the doubt goes wherever the
 * seed goes.
 *
 * <p>Common practice, no source.
 */
final class WeighedAgainstCounted {
  private static final double LEAST_CHANCE = 0.001;

  /** A shrivelled kernel of another cereal. */
  private static final double LIGHTEST_CEREAL_G = 0.01;

  /** A small pea; the sound kernels of other cereals weigh a quarter of it. */
  private static final double HEAVIEST_G = 0.2;

  private WeighedAgainstCounted() {}

  static Stream<Verdict> judge(List<PurityTest> tests, Dossier dossier) {
    List<OtherSeedDetermination> counts = dossier.facts(OtherSeedDetermination.class);
    return tests.stream()
        .flatMap(
            purity ->
                counts.stream()
                    .filter(count -> count.getSampleId().equals(purity.getSampleId()))
                    .flatMap(count -> judge(purity, count).stream()));
  }

  private static Optional<Verdict> judge(PurityTest purity, OtherSeedDetermination count) {
    int cereals = count.getOtherCereals() == null ? 0 : count.getOtherCereals();
    boolean allCounted = count.getOtherCereals() != null && count.getOtherPlants() != null;
    int counted = cereals + (count.getOtherPlants() == null ? 0 : count.getOtherPlants());
    double weighedG = purity.getOtherSeedsG();
    double ofG = purity.getPureSeedG() + purity.getInertMatterG() + weighedG;
    int most = (int) Math.floor(weighedG / LIGHTEST_CEREAL_G);
    int least = (int) Math.ceil(weighedG / HEAVIEST_G);
    boolean tooFewWeighed = isNoChance(most, cereals, ofG / (ofG + count.getSampleG()));
    boolean tooFewCounted =
        allCounted && isNoChance(counted, least, count.getSampleG() / (ofG + count.getSampleG()));
    if (!tooFewWeighed && !tooFewCounted) {
      return Optional.empty();
    }
    List<String> factIds = FactType.idsOf(List.of(purity, count));
    return Optional.of(
        Findings.of(
                GateAspect.of(
                    Gate.ANALYTICAL_PURITY,
                    "weighed and counted, facts " + String.join(", ", factIds),
                    new Aspect.Sample(purity.getSampleId(), new Fact(factIds.get(0)))),
                factIds,
                new PurityFinding.WeighedAgainstCounted(
                    Amount.grams(weighedG),
                    Amount.grams(ofG),
                    tooFewWeighed ? cereals : counted,
                    Amount.grams(count.getSampleG())))
            .and(new BasisFinding.NotSettled())
            .owed(new Evidence.Correction(Fact.each(factIds))));
  }

  /** Whether so few of all seeds together hardly ever lie in a part of this share. */
  private static boolean isNoChance(int inPart, int elsewhere, double share) {
    return ExactBinomial.atMost(inPart, inPart + elsewhere, share) < LEAST_CHANCE;
  }
}
