package org.kornspur.processors.gates;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.function.Supplier;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import net.jqwik.api.Assume;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Tag;
import org.kornspur.contract.Category;
import org.kornspur.contract.CompositionMethod;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.processors.dossier.Report;
import org.kornspur.processors.fixture.Dossiers;
import org.kornspur.processors.fixture.Draft;
import org.kornspur.processors.fixture.Facts;
import org.kornspur.processors.judging.Judge;
import org.kornspur.processors.standards.Rulebooks;
import org.kornspur.processors.verdict.Fitness;

/**
 * No fact without which alone a lot would be fit ever makes it fit, or turns what is not fit into
 * anything better, whatever else is on record of it. What {@link BadEvidenceTest} holds of crops,
 * for seed. Our own rule, no source.
 */
@Tag("slow")
class BadSeedEvidenceTest {
  private static final Judge JUDGE = Judge.by(Rulebooks.bundled());
  private static final double KG = 1000;
  private static final String SAMPLE = "sample of l1";

  /** Lots that are fit with these facts, each by another way of coming about. */
  private enum FitLot {
    BOUGHT_IN(() -> Dossiers.lot("l1").with(declared(Facts.HYBRID, Category.CERTIFIED)).scheme()),
    FEMALE(
        () ->
            Dossiers.lot("l1")
                .with(
                    declared(Facts.SINGLE_CROSS, Category.BASIC),
                    Facts.postControl("l1", 2000, 0)
                        .with(plot -> plot.setSheddingPlants(0))
                        .at("2025-06-10")
                        .id("good plot"))
                .scheme()),
    CONDITIONED(
        () ->
            Dossiers.lot("l1")
                .with(Facts.conditioning().from("raw", 1150).into("l1", KG).screenings(150))
                .parent("raw", Dossiers.f1())),
    PART(BadSeedEvidenceTest::part),
    TREATED(BadSeedEvidenceTest::treated),
    MIXTURE_BOUGHT_IN(
        () ->
            Dossiers.lot("l1")
                .with(
                    declared(Facts.HYBRID, Category.BASIC),
                    Facts.composition("l1", 1000, 50)
                        .with(sample -> sample.setMethod(CompositionMethod.GROW_OUT))
                        .id("good composition"),
                    Facts.postControl("l1", 2000, 0).at("2025-06-10").id("good plot"))
                .scheme());

    private final Supplier<Dossiers> lot;

    FitLot(Supplier<Dossiers> lot) {
      this.lot = lot;
    }

    List<Draft<?>> good() {
      return List.of(
          Facts.sampling("l1", 40, KG, 40).id("good sampling"),
          Facts.germination("l1", 95, 94, 96, 95).id("good germination"),
          Facts.purity("l1", 119.4, 0.5, 0.1).id("good purity"),
          Facts.moisture("l1", 13).id("good moisture"),
          Facts.otherSeeds("l1").id("good other seeds"));
    }

    Fitness judged(List<Draft<?>> more) {
      return judgedBy(Stream.concat(good().stream(), more.stream()).toList());
    }

    Fitness judgedBy(List<Draft<?>> facts) {
      return JUDGE
          .judge(lot.get().with(facts.toArray(new Draft<?>[0])).dossier())
          .standing()
          .orElseThrow()
          .state();
    }
  }

  private static Draft<?> declared(String seed, Category category) {
    return Facts.declared("l1", seed, category, KG)
        .with(lot -> lot.setRulebookId("DE"))
        .at("2024-08-01")
        .id("declared");
  }

  private static Dossiers part() {
    Draft<?> split = Facts.split("whole").into("l1", KG).into("rest", KG).id("split");
    return Dossiers.lot("l1").with(split).told(toldBy(split, 2 * KG));
  }

  private static Dossiers treated() {
    Draft<?> work =
        Facts.conditioning()
            .from("whole", KG)
            .into("l1", KG)
            .treatedWith("invented dressing")
            .at("2024-09-01")
            .id("treated");
    return Dossiers.lot("l1").with(work).told(toldBy(work, KG));
  }

  private static Report[] toldBy(Draft<?> movement, double massKg) {
    return JUDGE
        .judge(
            Dossiers.lot("whole")
                .with(
                    Facts.declared("whole", Facts.HYBRID, Category.CERTIFIED, massKg)
                        .with(lot -> lot.setRulebookId("DE"))
                        .at("2024-08-01"),
                    Facts.sampling("whole", 40, massKg, 40).at("2024-08-10"),
                    Facts.germination("whole", 95, 94, 96, 95).at("2024-08-10"),
                    Facts.purity("whole", 119.4, 0.5, 0.1).at("2024-08-10"),
                    Facts.moisture("whole", 13).at("2024-08-10"),
                    Facts.otherSeeds("whole").at("2024-08-10"),
                    movement)
                .dossier())
        .reports()
        .toArray(Report[]::new);
  }

  @Property(tries = 800)
  void neverHelps(@ForAll long seed) {
    Random random = new Random(seed);
    FitLot lot = FitLot.values()[random.nextInt(FitLot.values().length)];
    List<Draft<?>> others =
        IntStream.range(0, random.nextInt(5))
            .<Draft<?>>mapToObj(i -> anything(random, "x" + i))
            .toList();
    List<Draft<?>> some = new ArrayList<>(others);
    lot.good().stream().filter(fact -> random.nextInt(4) > 0).forEach(some::add);
    Draft<?> bad = anything(random, "bad");
    Assume.that(lot.judged(List.of(bad)) != Fitness.FIT);
    // a test that passes by itself settles what others leave open
    Assume.that(lot.judgedBy(inPlaceOfItsKind(lot, bad)) != Fitness.FIT);
    // another of them may settle what it leaves open
    Assume.that(lot.judged(Stream.concat(others.stream(), Stream.of(bad)).toList()) != Fitness.FIT);
    Fitness before = lot.judgedBy(some);
    Assume.that(before != Fitness.FIT);
    some.add(bad);
    Fitness after = lot.judgedBy(some);

    assertThat(after).as("%s, with %s", lot, bad.fact()).isNotEqualTo(Fitness.FIT);
    if (before == Fitness.NOT_FIT) {
      assertThat(after).as("%s, with %s", lot, bad.fact()).isEqualTo(Fitness.NOT_FIT);
    }
  }

  private static List<Draft<?>> inPlaceOfItsKind(FitLot lot, Draft<?> bad) {
    FactType type = FactType.of(bad.fact());
    return Stream.concat(
            lot.good().stream().filter(fact -> FactType.of(fact.fact()) != type), Stream.of(bad))
        .toList();
  }

  @Property
  void withoutAnyTheyAreFit(@ForAll FitLot lot) {
    assertThat(lot.judged(List.of())).isEqualTo(Fitness.FIT);
  }

  private static Draft<?> anything(Random random, String id) {
    String day = "2024-09-%02d".formatted(11 + random.nextInt(18));
    String sample = random.nextInt(3) > 0 ? SAMPLE : "sample " + random.nextInt(3);
    return switch (random.nextInt(11)) {
      case 0 -> {
        int mean = 75 + random.nextInt(23);
        int[] normal =
            IntStream.range(0, 4).map(i -> mean - random.nextInt(1 + random.nextInt(9))).toArray();
        yield Facts.germination("l1", normal).with(test -> test.setSampleId(sample)).at(day).id(id);
      }
      case 1 -> {
        double inert = random.nextInt(5);
        double other = random.nextInt(3) == 0 ? random.nextInt(20) / 10.0 : 0;
        yield Facts.purity("l1", 60 + random.nextInt(60), inert, other)
            .with(test -> test.setSampleId(sample))
            .at(day)
            .id(id);
      }
      case 2 ->
          Facts.moisture("l1", 3 + random.nextInt(150) / 10.0)
              .with(test -> test.setSampleId(sample))
              .at(day)
              .id(id);
      case 3, 4 ->
          Facts.otherSeeds("l1")
              .with(
                  count ->
                      count
                          .setSampleId(sample)
                          .setSampleNumber(1 + random.nextInt(2))
                          .setSampleG(random.nextInt(3) == 0 ? 400 : 500)
                          .setOtherCereals(random.nextInt(5))
                          .setOtherPlants(random.nextInt(4))
                          .setWildOats(random.nextInt(4) == 0 ? 1 : 0)
                          .setErgotBodies(random.nextInt(7)))
              .at(day)
              .id(id);
      case 5 ->
          Facts.sampling("l1", 40, 300 + random.nextInt(1500), 5 + random.nextInt(40))
              .with(
                  drawn ->
                      drawn
                          .setSampleId(sample)
                          .setSubmittedSampleG(random.nextInt(3) == 0 ? 400 : 1000))
              .at(day)
              .id(id);
      case 6 ->
          Facts.postControl("l1", 10 + random.nextInt(3000), random.nextInt(20))
              .with(
                  plot ->
                      plot.setSheddingPlants(random.nextBoolean() ? random.nextInt(70) : null)
                          .setIdentityConfirmed(random.nextInt(6) > 0)
                          .setPlotOrTestId("plot " + random.nextInt(3)))
              .at(random.nextInt(4) == 0 ? "2024-12-20" : "2025-06-15")
              .id(id);
      case 7 ->
          Facts.composition("l1", 100 + random.nextInt(1500), random.nextInt(110))
              .with(kernels -> kernels.setSampleId(sample).setMethod(CompositionMethod.GROW_OUT))
              .at(day)
              .id(id);
      case 8 ->
          Facts.kernelWeight("l1", weights(random)).with(w -> w.setSampleId(sample)).at(day).id(id);
      case 9 ->
          Facts.dispatch("l1", 100 + random.nextInt(1500))
              .at(random.nextInt(4) == 0 ? "2024-07-20" : "2025-11-10")
              .id(id);
      default -> Facts.split("l1").into("part " + id, 100 + random.nextInt(1500)).at(day).id(id);
    };
  }

  private static double[] weights(Random random) {
    double each = 1 + random.nextInt(60) / 10.0;
    double[] weights = new double[1 + random.nextInt(9)];
    Arrays.fill(weights, each);
    return weights;
  }
}
