package org.kornspur.processors.advice;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.IntRange;
import org.junit.jupiter.api.Test;
import org.kornspur.contract.ShareBasis;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.processors.advice.MixtureAdvice.Candidate;
import org.kornspur.processors.advice.MixtureAdvice.Request;
import org.kornspur.processors.dossier.SeedMeasures;
import org.kornspur.processors.finding.Part;
import org.kornspur.processors.fixture.Dossiers;
import org.kornspur.processors.verdict.Fitness;

/** Lots and numbers are invented. */
class MixtureAdviceTest {
  private static final Candidate FEMALE = lot("F", false, 1000, 25, 90);
  private static final Candidate POLLINATOR = lot("P", true, 40, 40, 80);

  /**
   * 5 % of viable kernels: the pollinator has 20,000 in a kilogram, the female 36,000, so masses
   * are as 5/20 to 95/36.
   */
  @Test
  void kilogramsOfTwoLotsHaveTheClosedForm() {
    MixtureAdvice advice = mix(400, 5, 0, ShareBasis.VIABLE_KERNELS, FEMALE, POLLINATOR);
    double pollinator = 5 / 20.0;
    double female = 95 / 36.0;
    assertThat(advice.refusal()).isEmpty();
    assertThat(kg(advice, "P")).isCloseTo(400 * pollinator / (pollinator + female), within(1e-6));
    assertThat(kg(advice, "F")).isCloseTo(400 * female / (pollinator + female), within(1e-6));
    MixtureAdvice.Mixture mixture = advice.mixture().orElseThrow();
    assertThat(mixture.share().get(ShareBasis.VIABLE_KERNELS)).isCloseTo(0.05, within(1e-9));
    assertThat(mixture.share()).containsKeys(ShareBasis.MASS, ShareBasis.KERNELS);
    assertThat(mixture.interval().get(ShareBasis.VIABLE_KERNELS).contains(0.05)).isTrue();
    assertThat(mixture.offTarget()).isFalse();
  }

  @Test
  void aRatioByMassIsMixedByMassAndTakesNoTests() {
    Candidate untested = new Candidate("P", true, Fitness.FIT, 40, SeedMeasures.none());
    MixtureAdvice advice = mix(400, 5, 0, ShareBasis.MASS, FEMALE, untested);
    assertThat(kg(advice, "P")).isCloseTo(20, within(1e-6));
    assertThat(advice.mixture().orElseThrow().share()).containsOnlyKeys(ShareBasis.MASS);
  }

  @Test
  void eachLotThatIsNotUsedHasItsReason() {
    MixtureAdvice advice =
        mix(
            100,
            5,
            0,
            ShareBasis.VIABLE_KERNELS,
            FEMALE,
            new Candidate("N", true, Fitness.NOT_FIT, 40, Dossiers.measures("N", 40, 80)),
            new Candidate("O", true, Fitness.EVIDENCE_OWED, 40, Dossiers.measures("O", 40, 80)),
            lot("E", true, 0, 40, 80),
            lot("D", true, 40, 40, 0),
            new Candidate("U", true, Fitness.FIT, 40, SeedMeasures.none()));
    assertThat(advice.passedOver())
        .extracting(MixtureAdvice.PassedOver::lotId)
        .containsExactly("N", "O", "E", "D", "U");
    assertThat(advice.passedOver())
        .extracting(MixtureAdvice.PassedOver::reason)
        .containsExactly(
            new MixtureStatement.NotFit(Subject.lot("N")),
            new MixtureStatement.EvidenceOwed(Subject.lot("O")),
            new MixtureStatement.NothingLeft(Subject.lot("E"), Amount.kilograms(0)),
            new MixtureStatement.UnusableGermination(Subject.lot("D"), Amount.percent(0)),
            new MixtureStatement.NoKernelWeight(Subject.lot("U")));
    assertThat(advice.portions()).isEmpty();
    assertThat(advice.refusal().orElseThrow())
        .isInstanceOfSatisfying(
            MixtureStatement.NoLot.class,
            none -> assertThat(none.part()).isEqualTo(Part.POLLINATOR));
    assertThat(advice.mostKg()).isZero();
  }

  /** 40 kg of pollinator at 5 % by mass last for 800 kg; at 4 % they last for 1,000 kg. */
  @Test
  void aShortStockIsRefusedOrStretchedWithinTheTolerance() {
    MixtureAdvice refused = mix(900, 5, 0, ShareBasis.MASS, FEMALE, POLLINATOR);
    assertThat(refused.mostKg()).isCloseTo(800, within(1e-6));
    assertThat(refused.refusal().orElseThrow())
        .isInstanceOfSatisfying(
            MixtureStatement.RunsOut.class,
            out -> {
              assertThat(out.part()).isEqualTo(Part.POLLINATOR);
              assertThat(out.female()).isEqualTo(Amount.kilograms(1000));
              assertThat(out.pollinator()).isEqualTo(Amount.kilograms(40));
            });

    MixtureAdvice stretched = mix(900, 5, 1, ShareBasis.MASS, FEMALE, POLLINATOR);
    assertThat(stretched.refusal()).isEmpty();
    assertThat(stretched.mixture().orElseThrow().offTarget()).isTrue();
    assertThat(stretched.mixture().orElseThrow().share().get(ShareBasis.MASS))
        .isCloseTo(40.0 / 900, within(1e-6));

    MixtureAdvice female = mix(1100, 2, 0.5, ShareBasis.MASS, FEMALE, POLLINATOR);
    assertThat(female.refusal().orElseThrow())
        .isInstanceOfSatisfying(
            MixtureStatement.RunsOut.class, out -> assertThat(out.part()).isEqualTo(Part.FEMALE));
  }

  @Test
  void whatIsSaidToBePossibleIs() {
    Candidate few = lot("P", true, 12.3456789, 37, 83);
    MixtureAdvice refused = mix(900, 5, 0.3, ShareBasis.VIABLE_KERNELS, FEMALE, few);
    double mostKg = ((MixtureStatement.RunsOut) refused.refusal().orElseThrow()).most().number();
    assertThat(mostKg).isCloseTo(refused.mostKg(), within(0.01));
    assertThat(mix(mostKg, 5, 0.3, ShareBasis.VIABLE_KERNELS, FEMALE, few).refusal()).isEmpty();
  }

  @Test
  void aRequestThatMakesNoMixtureIsRefused() {
    assertThatThrownBy(() -> new Request("H1", 0, 5, 1, ShareBasis.MASS))
        .hasMessageContaining("NoMass");
    assertThatThrownBy(() -> new Request("H1", 10, 100, 1, ShareBasis.MASS))
        .hasMessageContaining("ShareOutside");
    assertThatThrownBy(() -> new Request("H1", 10, 5, -1, ShareBasis.MASS))
        .hasMessageContaining("NegativeTolerance");
  }

  @Property(tries = 60)
  void aWiderToleranceNeverRefusesMore(
      @ForAll @IntRange(min = 100, max = 1500) int massKg,
      @ForAll @DoubleRange(min = 2, max = 12) double target,
      @ForAll @DoubleRange(min = 0, max = 1.5) double tolerance,
      @ForAll @DoubleRange(min = 0, max = 3) double wider,
      @ForAll @IntRange(min = 1, max = 120) int stockKg) {
    Candidate[] lots = {
      lot("F1", false, 500, 24, 91), lot("F2", false, 450, 29, 87), lot("P1", true, stockKg, 35, 82)
    };
    ShareBasis basis = ShareBasis.VIABLE_KERNELS;
    MixtureAdvice narrow = mix(massKg, target, tolerance, basis, lots);
    MixtureAdvice wide = mix(massKg, target, tolerance + wider, basis, lots);
    if (narrow.refusal().isEmpty()) {
      assertThat(wide.refusal()).isEmpty();
      double share = narrow.mixture().orElseThrow().share().get(basis);
      assertThat(100 * share).isCloseTo(target, within(tolerance + 1e-6));
    }
    assertThat(wide.mostKg()).isGreaterThanOrEqualTo(narrow.mostKg() - 1e-6);
  }

  private static MixtureAdvice mix(
      double massKg, double target, double tolerance, ShareBasis basis, Candidate... lots) {
    return MixtureAdvice.of(new Request("H1", massKg, target, tolerance, basis), List.of(lots));
  }

  private static Candidate lot(
      String lotId, boolean pollinator, double leftKg, double weightG, double germination) {
    return new Candidate(
        lotId, pollinator, Fitness.FIT, leftKg, Dossiers.measures(lotId, weightG, germination));
  }

  private static double kg(MixtureAdvice advice, String lotId) {
    return advice.portions().stream()
        .filter(portion -> portion.lotId().equals(lotId))
        .findFirst()
        .orElseThrow()
        .massKg();
  }
}
