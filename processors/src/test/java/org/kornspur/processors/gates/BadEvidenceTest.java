package org.kornspur.processors.gates;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import org.kornspur.contract.CropRole;
import org.kornspur.contract.FieldInspection;
import org.kornspur.processors.fixture.Dossiers;
import org.kornspur.processors.fixture.Draft;
import org.kornspur.processors.fixture.Facts;

/**
 * No further visit that is itself over the limit, whenever it is made, turns what is not met into
 * anything better; nor does the order of the facts. Our own rule, no source.
 */
class BadEvidenceTest {
  private static final LocalDate FIRST = LocalDate.of(2024, 5, 25);
  private static final int[] STAGES = {31, 55, 63, 67};

  @Property(tries = 3000)
  void ofOffTypesNeverHelps(@ForAll long seed) {
    neverHelps(seed, new OffTypes(), CropRole.F1_MIXTURE, BadEvidenceTest::offTypes);
  }

  @Property(tries = 3000)
  void ofSheddersNeverHelps(@ForAll long seed) {
    neverHelps(seed, new SheddingFemales(), CropRole.STERILE_FEMALE, BadEvidenceTest::shedders);
  }

  @Property(tries = 3000)
  void ofOtherPlantsNeverHelps(@ForAll long seed) {
    neverHelps(seed, new OtherPlants(), CropRole.F1_MIXTURE, BadEvidenceTest::cereals);
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
}
