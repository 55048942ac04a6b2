package org.kornspur.processors.advice;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.kornspur.contract.Category;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.fixture.Dossiers;
import org.kornspur.processors.fixture.Facts;

class MixedSeedTest {
  private static final int LEVELS = 40;

  private final Map<Subject, Dossier> known = new HashMap<>();
  private final List<Subject> opened = new ArrayList<>();

  /**
   * Two lots on each level, each merged from both of the level above: 2^40 ways lead back to the
   * components. 30 and 10 kg of those above went into each, so both lots of a level are alike, and
   * of the 80 kg sown three quarters are of the first component, by hand.
   */
  @Test
  void manyWaysToTheSameLotAreWalkedOnce() {
    component("a0", Facts.SINGLE_CROSS);
    component("b0", Facts.RESTORER);
    for (int level = 1; level <= LEVELS; level++) {
      for (String lot : List.of("a", "b")) {
        merged(lot + level, "a" + (level - 1), 30, "b" + (level - 1), 10);
      }
    }
    MixedSeed seed = seed(Map.of(Subject.lot("a" + LEVELS), 80.0));

    assertThat(opened).hasSize(2 * LEVELS + 1).doesNotHaveDuplicates();
    assertThat(seed.unexplained()).isEmpty();
    assertThat(kilogramsOf(seed, "a0")).isCloseTo(60, within(1e-9));
    assertThat(kilogramsOf(seed, "b0")).isCloseTo(20, within(1e-9));
    assertThat(seed.factIds()).hasSize(2 * LEVELS - 1);
  }

  @Test
  void lotsInACircleStayUnexplained() {
    component("a0", Facts.SINGLE_CROSS);
    merged("x", "y", 50, "a0", 50);
    merged("y", "x", 50, "a0", 50);
    MixedSeed seed = seed(Map.of(Subject.lot("x"), 80.0));

    assertThat(seed.unexplained()).containsExactly(Subject.lot("x"), Subject.lot("y"));
    assertThat(seed.components()).isEmpty();
  }

  private MixedSeed seed(Map<Subject, Double> sownKg) {
    return new MixedSeed(
        Dossiers.crop("c1").dossier(),
        sownKg,
        lot -> {
          opened.add(lot);
          return known.get(lot);
        });
  }

  private static double kilogramsOf(MixedSeed seed, String lotId) {
    return seed.components().stream()
        .filter(lot -> lot.dossier().subject().equals(Subject.lot(lotId)))
        .mapToDouble(MixedSeed.Lot::massKg)
        .sum();
  }

  private void component(String lotId, String componentId) {
    known.put(
        Subject.lot(lotId),
        Dossiers.lot(lotId)
            .with(Facts.declared(lotId, componentId, Category.BASIC, 1_000))
            .dossier());
  }

  private void merged(String lotId, String one, double oneKg, String other, double otherKg) {
    known.put(
        Subject.lot(lotId),
        Dossiers.lot(lotId)
            .with(Facts.merge(lotId).id("into " + lotId).of(one, oneKg).of(other, otherKg))
            .dossier());
  }
}
