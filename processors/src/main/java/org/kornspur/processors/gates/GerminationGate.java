package org.kornspur.processors.gates;

import java.util.List;
import java.util.Optional;
import org.kornspur.contract.GerminationTest;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.finding.Evidence;
import org.kornspur.processors.finding.Thing;
import org.kornspur.processors.gates.Findings.GateAspect;
import org.kornspur.processors.standards.Limit;
import org.kornspur.processors.standards.Quantity;
import org.kornspur.processors.standards.Rulebook;
import org.kornspur.processors.statistics.GerminationRetests;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Verdict;

/**
 * Germination of pure seed, whole percent. The limit: Council Directive 66/402/EEC, Annex II.
 *
 * <p>Of several tests, in this order:
 *
 * <ol>
 *   <li>A test that cannot be is to be corrected; one of too few seeds is none (7 CFR 201.54).
 *   <li>A whole test that fails stands: the same seed is not tested until it passes. Seed Ordinance
 *       (SaatV), section 12(2): failed seed is sampled again only once the defect is removed. It is
 *       then another lot, or the result was wrong and is corrected with its reason.
 *   <li>Replicates further apart than the published range ask for a retest (7 CFR 201.55).
 *   <li>What is left is held together as {@link GerminationTests} and {@link GerminationRetests}
 *       say. Which test calls itself a retest makes no difference.
 * </ol>
 *
 * <p>Under a book with no minimum the test itself is asked for, with as many seeds as the book
 * wants, and its value fails nothing. How long a test is good, and a label that states a lower
 * germination: {@link GerminationAge} and {@link StatedGermination}.
 */
final class GerminationGate implements GateRule {
  @Override
  public List<Verdict> judge(Dossier dossier, Rulebook rulebook) {
    return SeedLot.tested(dossier, rulebook, Gate.GERMINATION)
        .flatMap(lot -> asked(lot).map(limit -> judge(lot, limit)))
        .orElse(List.of());
  }

  /** A book that gives no minimum may still ask for a test, and of how many seeds. */
  private static Optional<Limit> asked(SeedLot lot) {
    return lot.limit(Quantity.GERMINATION).or(() -> lot.limit(Quantity.GERMINATION_SEEDS));
  }

  private static List<Verdict> judge(SeedLot lot, Limit limit) {
    List<GerminationTest> tests = lot.dossier().facts(GerminationTest.class);
    if (tests.isEmpty()) {
      return lot
          .verdictsOfUnsplitOr(
              Gate.GERMINATION,
              () -> Findings.missing(Gate.GERMINATION, limit, new Evidence.GerminationTest()))
          .stream()
          .map(ofUnsplit -> GerminationAge.ofPart(lot, ofUnsplit))
          .toList();
    }
    return List.of(
        impossible(tests, limit)
            .orElseGet(
                () ->
                    StatedGermination.judge(
                        lot,
                        limit,
                        tests,
                        asked -> new GerminationJudging(lot, asked, tests).verdict())));
  }

  private static Optional<Verdict> impossible(List<GerminationTest> tests, Limit limit) {
    return tests.stream()
        .flatMap(
            test ->
                test.getReplicates().stream()
                    .filter(replicate -> replicate.getNormalSeedlings() > replicate.getSeeds())
                    .map(
                        replicate ->
                            Findings.impossible(
                                GateAspect.of(Gate.GERMINATION),
                                limit,
                                Thing.NORMAL_SEEDLINGS,
                                replicate.getNormalSeedlings(),
                                replicate.getSeeds(),
                                test.getHeader().getFactId())))
        .reduce((earlier, later) -> later);
  }
}
