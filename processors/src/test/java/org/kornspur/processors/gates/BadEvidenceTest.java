package org.kornspur.processors.gates;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.params.provider.Arguments.arguments;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import net.jqwik.api.Assume;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;
import org.kornspur.contract.Category;
import org.kornspur.contract.CropRole;
import org.kornspur.contract.FieldInspection;
import org.kornspur.contract.FloweringPart;
import org.kornspur.contract.InspectedPart;
import org.kornspur.contract.SterilityCheck;
import org.kornspur.processors.fixture.Dossiers;
import org.kornspur.processors.fixture.Draft;
import org.kornspur.processors.fixture.Facts;
import org.kornspur.processors.judging.Judge;
import org.kornspur.processors.standards.Rulebooks;
import org.kornspur.processors.verdict.Fitness;

/**
 * No further visit that is itself over the limit, whenever it is made, turns what is not met into
 * anything better; nor does the order of the facts. No crop is fit with a fact without which alone
 * it would be. Our own rule, no source.
 */
@Tag("slow")
class BadEvidenceTest {
  private static final LocalDate FIRST = LocalDate.of(2024, 5, 25);
  private static final int[] STAGES = {31, 55, 63, 67};

  @Property(tries = 3000)
  void ofOffTypesNeverHelps(@ForAll long seed) {
    neverHelps(seed, new OffTypesGate(), CropRole.F1_MIXTURE, BadEvidenceTest::offTypes);
  }

  @Property(tries = 3000)
  void ofSheddersNeverHelps(@ForAll long seed) {
    neverHelps(seed, new SheddingFemalesGate(), CropRole.STERILE_FEMALE, BadEvidenceTest::shedders);
  }

  @Property(tries = 3000)
  void ofOtherPlantsNeverHelps(@ForAll long seed) {
    neverHelps(seed, new OtherPlantsGate(), CropRole.F1_MIXTURE, BadEvidenceTest::cereals);
  }

  private interface Counting {
    Facts.InspectionDraft count(Random random, boolean bad);
  }

  private static void neverHelps(long seed, GateRule gate, CropRole role, Counting counting) {
    Random random = new Random(seed);
    List<Draft<?>> counts = new ArrayList<>();
    int size = 1 + random.nextInt(4);
    for (int i = 0; i < size; i++) {
      Facts.InspectionDraft count = counting.count(random, random.nextBoolean());
      counts.add(placed(random, count, 1 + random.nextInt(3), 2 * random.nextInt(12)).id("c" + i));
    }
    boolean known = random.nextBoolean();
    String before = worst(gate, role, known, counts);
    List<Draft<?>> more = new ArrayList<>(counts);
    Facts.InspectionDraft bad = counting.count(random, true);
    more.add(
        random.nextInt(more.size() + 1),
        placed(random, bad, 4, 2 * random.nextInt(12) + 1).id("bad"));
    String after = worst(gate, role, known, more);

    if (before.equals("NOT_MET")) {
      assertThat(after).isEqualTo("NOT_MET");
    }
  }

  private static Draft<?> placed(
      Random random, Facts.InspectionDraft count, int visit, int daysAfterFirst) {
    return count
        .visit(visit)
        .with(made -> made.setBbchStage(STAGES[random.nextInt(STAGES.length)]))
        .at(FIRST.plusDays(daysAfterFirst).toString());
  }

  /** At most 15 in 150 m2. */
  private static Facts.InspectionDraft offTypes(Random random, boolean bad) {
    int areaM2 = 20 + random.nextInt(300);
    int most = areaM2 / 10;
    return Facts.inspection("c1")
        .female()
        .offTypesInArea(bad ? most + 1 + random.nextInt(20) : random.nextInt(most + 1), areaM2);
  }

  /** At most 2 in 100. */
  private static Facts.InspectionDraft shedders(Random random, boolean bad) {
    int plants = 50 + random.nextInt(3000);
    int most = plants / 50;
    return Facts.inspection("c1")
        .female()
        .sheddingAmong(bad ? most + 1 + random.nextInt(20) : random.nextInt(most + 1), plants);
  }

  /** At most 6 in 150 m2. */
  private static Facts.InspectionDraft cereals(Random random, boolean bad) {
    int areaM2 = 25 + random.nextInt(300);
    int most = areaM2 / 25;
    int cereals = bad ? most + 1 + random.nextInt(20) : random.nextInt(most + 1);
    return Facts.inspection("c1")
        .offTypesInArea(0, areaM2)
        .with((FieldInspection.Builder visit) -> visit.setOtherCerealPlants(cereals));
  }

  private static String worst(GateRule gate, CropRole role, boolean known, List<Draft<?>> counts) {
    return Judged.by(
            "DE",
            gate,
            Dossiers.crop("c1")
                .with(
                    Facts.crop("c1", role)
                        .with(
                            crop ->
                                crop.setFloweringFrom(known ? LocalDate.of(2024, 6, 1) : null)
                                    .setFloweringTo(known ? LocalDate.of(2024, 6, 15) : null)))
                .with(counts.toArray(new Draft<?>[0]))
                .dossier())
        .worst();
  }

  @ParameterizedTest(name = "{0} with {1}: {2}")
  @MethodSource("badFacts")
  void oneBadFactIsNeverFit(FitCrop crop, Draft<?> bad, Fitness expected) {
    assertThat(crop.judged(List.of()))
        .as("without it, for it shows nothing else")
        .isEqualTo(Fitness.FIT);
    assertThat(crop.judged(List.of(bad))).isEqualTo(expected);
  }

  static Stream<Arguments> badFacts() {
    FitCrop mixture = FitCrop.of("DE", CropRole.F1_MIXTURE);
    FitCrop female = FitCrop.of("EU", CropRole.STERILE_FEMALE);
    FitCrop us = FitCrop.of("US", CropRole.F1_MIXTURE);
    return Stream.of(
        arguments(mixture, visit().offTypesInArea(300, 150), Fitness.NOT_FIT),
        arguments(mixture, visit().offTypesAmong(300, 1000), Fitness.EVIDENCE_OWED),
        arguments(us, visit().offTypesInArea(300, 150), Fitness.EVIDENCE_OWED),
        arguments(
            mixture,
            visit().offTypesInArea(0, 150).with(count -> count.setWildOatPlants(50)),
            Fitness.NOT_FIT),
        arguments(
            mixture,
            visit().offTypesAmong(0, 1000).with(count -> count.setWildOatPlants(50)),
            Fitness.EVIDENCE_OWED),
        arguments(mixture, visit().at("2024-09-10"), Fitness.EVIDENCE_OWED),
        arguments(mixture, visit().at("2024-03-10"), Fitness.EVIDENCE_OWED),
        arguments(mixture, visit().at("2023-06-05"), Fitness.EVIDENCE_OWED),
        arguments(mixture, Facts.sowing("c1").of("m1", 1).on(8).id("more"), Fitness.EVIDENCE_OWED),
        arguments(mixture, Facts.harvest("c1", "r2", 500_000), Fitness.EVIDENCE_OWED),
        arguments(mixture, Facts.harvest("c1", "r2", 50).at("2023-08-05"), Fitness.NOT_FIT),
        arguments(female, visit().female().sheddingAmong(200, 1000), Fitness.NOT_FIT),
        arguments(female, visit().sheddingAmong(200, 1000), Fitness.NOT_FIT),
        arguments(
            female, visit().with(count -> count.setSheddingPlants(200)), Fitness.EVIDENCE_OWED),
        arguments(
            female,
            visit().of(InspectedPart.POLLEN_PARENT).offTypesInArea(60, 150),
            Fitness.NOT_FIT),
        arguments(female, Facts.sterility("c1", 1000, 300).at("2024-06-05"), Fitness.NOT_FIT),
        arguments(female, ears(100, 9).at("2024-07-05"), Fitness.NOT_FIT),
        arguments(female, Facts.sterility("c1", 1000, 0).at("2024-09-05"), Fitness.EVIDENCE_OWED),
        arguments(
            female,
            Facts.flowering("c1", FloweringPart.FEMALE, 65).at("2024-07-05"),
            Fitness.EVIDENCE_OWED));
  }

  @Property(tries = 1500)
  void norDoesItHelpWhateverElseIsOnRecord(@ForAll long seed) {
    Random random = new Random(seed);
    FitCrop crop =
        FitCrop.of(
            List.of("EU", "DE", "HOUSE", "US").get(random.nextInt(4)),
            random.nextBoolean() ? CropRole.STERILE_FEMALE : CropRole.F1_MIXTURE);
    List<Draft<?>> others =
        IntStream.range(0, random.nextInt(5))
            .<Draft<?>>mapToObj(i -> anything(random, "x" + i))
            .toList();
    List<Draft<?>> some = new ArrayList<>(others);
    crop.good().stream().filter(fact -> random.nextInt(4) > 0).forEach(some::add);
    Draft<?> bad = anything(random, "bad");
    Assume.that(crop.judged(List.of(bad)) != Fitness.FIT);
    // a later visit among the others may find gone what it counts
    Assume.that(
        crop.judged(Stream.concat(others.stream(), Stream.of(bad)).toList()) != Fitness.FIT);
    Fitness before = crop.judgedBy(some);
    Assume.that(before != Fitness.FIT);
    some.add(bad);
    Fitness after = crop.judgedBy(some);

    assertThat(after).as("%s, with %s", crop, bad.fact()).isNotEqualTo(Fitness.FIT);
    if (before == Fitness.NOT_FIT) {
      assertThat(after).as("%s, with %s", crop, bad.fact()).isEqualTo(Fitness.NOT_FIT);
    }
  }

  /**
   * A visit with off-types, in flower before anybody counted, made shedders fewer over the days.
   */
  @Test
  void norDoesItHelpThatItFloweredEarlier() {
    norDoesItHelpWhateverElseIsOnRecord(2785436238715L);
  }

  private static Draft<?> anything(Random random, String id) {
    String day = FIRST.plusDays(random.nextInt(40) - 5).toString();
    return switch (random.nextInt(8)) {
      case 0 ->
          Facts.sterility("c1", 100 + random.nextInt(2000), random.nextInt(60)).at(day).id(id);
      case 1 -> ears(20 + random.nextInt(200), random.nextInt(6)).at("2024-07-05").id(id);
      case 2 ->
          Facts.harvest("c1", "r-" + id, 5000)
              .with(harvest -> harvest.setPollenParentRemoved(true))
              .at(random.nextInt(3) == 0 ? "2024-06-08" : "2024-08-01")
              .id(id);
      case 3 -> Facts.flowering("c1", FloweringPart.FEMALE, 61 + random.nextInt(9)).at(day).id(id);
      default -> anyVisit(random).at(random.nextInt(9) == 0 ? "2024-08-20" : day).id(id);
    };
  }

  /** Of off-types or of shedders: one of both could speak for the crop and one against it. */
  private static Facts.InspectionDraft anyVisit(Random random) {
    Facts.InspectionDraft visit =
        Facts.inspection("c1")
            .visit(1 + random.nextInt(6))
            .of(InspectedPart.values()[random.nextInt(3)])
            .with(count -> count.setBbchStage(31 + 2 * random.nextInt(24)));
    if (random.nextInt(3) == 0) {
      int receptive = 100 + random.nextInt(3000);
      return visit.sheddingAmong(random.nextInt(Math.max(1, receptive / 12)), receptive);
    }
    int found = random.nextInt(3) == 0 ? 0 : random.nextInt(40);
    return switch (random.nextInt(3)) {
      case 0 -> visit.offTypesAmong(found, 1000 + random.nextInt(5000));
      case 1 ->
          visit
              .offTypesAmong(found, 1000 + random.nextInt(5000))
              .offTypesInArea(found, 20 + random.nextInt(300));
      default -> visit.offTypesInArea(found, 20 + random.nextInt(300));
    };
  }

  private static Facts.InspectionDraft visit() {
    return Facts.inspection("c1").visit(9).at("2024-06-08").id("bad");
  }

  private static void noOtherPlants(FieldInspection.Builder count) {
    count.setOtherCerealPlants(0).setHardToSeparatePlants(0).setWildOatPlants(0).setSmutPlants(0);
  }

  private static Facts.Plain<SterilityCheck.Builder> ears(int bagged, int withSeed) {
    return Facts.sterility("c1", 0, 0)
        .with(check -> check.setBaggedEars(bagged).setBaggedEarsWithSeed(withSeed));
  }

  /** A crop that flowers from 1 to 15 June, is harvested on 1 August, and is fit with these. */
  private record FitCrop(String book, CropRole role, List<Draft<?>> good) {
    private static final Judge JUDGE = Judge.by(Rulebooks.bundled());

    static FitCrop of(String book, CropRole role) {
      List<Draft<?>> good = new ArrayList<>();
      for (InspectedPart part : List.of(InspectedPart.FEMALE, InspectedPart.POLLEN_PARENT)) {
        for (int visit = 1; visit <= 3; visit++) {
          good.add(
              Facts.inspection("c1")
                  .visit(visit)
                  .at("2024-06-0" + (2 + visit))
                  .of(part)
                  .offTypesInArea(0, 200)
                  .offTypesAmong(0, 9000)
                  .with(BadEvidenceTest::noOtherPlants)
                  .with(
                      count ->
                          count
                              .setSheddingPlants(part == InspectedPart.FEMALE ? 0 : null)
                              .setPlantsInReceptiveFlower(3000))
                  .id("good " + part + visit));
        }
      }
      good.add(Facts.sterility("c1", 2000, 0).at("2024-06-07").id("plants"));
      good.add(ears(200, 0).at("2024-07-07").id("ears"));
      return new FitCrop(book, role, good);
    }

    /** With all that is good and these. */
    Fitness judged(List<Draft<?>> more) {
      return judgedBy(Stream.concat(good.stream(), more.stream()).toList());
    }

    Fitness judgedBy(List<Draft<?>> facts) {
      Dossiers crop =
          Dossiers.crop("c1")
              .scheme()
              .with(
                  Facts.crop("c1", role)
                      .with(
                          declared ->
                              declared
                                  .setRulebookId(book)
                                  .setFloweringFrom(LocalDate.of(2024, 6, 1))
                                  .setFloweringTo(LocalDate.of(2024, 6, 15))),
                  Facts.harvest("c1", "r1", 5000)
                      .with(harvest -> harvest.setPollenParentRemoved(true))
                      .at("2024-08-01"))
              .with(facts.toArray(new Draft<?>[0]))
              .neighbour(2000);
      return JUDGE.judge(sown(crop).dossier()).standing().orElseThrow().state();
    }

    private Dossiers sown(Dossiers crop) {
      return role == CropRole.F1_MIXTURE
          ? crop.with(Facts.sowing("c1").of("m1", 100)).parent("m1", Dossiers.mixture())
          : crop.with(Facts.sowing("c1").of("f1", 90).of("p1", 10))
              .parent("f1", Dossiers.component(Facts.STERILE_LINE, Category.PRE_BASIC))
              .parent("p1", Dossiers.component(Facts.FERTILE_LINE, Category.PRE_BASIC));
    }

    @Override
    public String toString() {
      return book + " " + role;
    }
  }
}
