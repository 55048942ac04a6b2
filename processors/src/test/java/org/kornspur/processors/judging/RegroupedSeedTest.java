package org.kornspur.processors.judging;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.function.Function;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Tag;
import org.kornspur.contract.Category;
import org.kornspur.processors.fixture.Draft;
import org.kornspur.processors.fixture.Facts;
import org.kornspur.processors.fixture.JudgedFacts;
import org.kornspur.processors.standards.Rulebooks;
import org.kornspur.processors.verdict.Fitness;

/**
 * However often seed that failed something, or left something open, is divided, put together,
 * treated or given another name, and however well every lot made of it is tested: none of them is
 * better than it was. And of good seed all of them are fit, or this would prove nothing. Our own
 * rule, no source.
 */
@Tag("slow")
class RegroupedSeedTest {
  private static final Judge JUDGE = Judge.by(Rulebooks.bundled());
  private static final double KG = 1000;
  private static final LocalDate FIRST_MOVE = LocalDate.of(2024, 9, 1);
  private static final List<Fitness> BEST_FIRST =
      List.of(Fitness.FIT, Fitness.EVIDENCE_OWED, Fitness.NOT_FIT);

  /** What a lot can fail, or leave open. */
  private enum Failure {
    NONE(bad -> List.of()),
    PURITY(
        bad ->
            List.of(
                Facts.purity(bad, 111, 8, 1)
                    .with(test -> test.setSampleId(of(bad)))
                    .at("2024-08-12"))),
    WEIGHED_AGAINST_COUNTED(
        bad ->
            List.of(
                Facts.purity(bad, 117.6, 0, 2.4)
                    .with(test -> test.setSampleId(of(bad)))
                    .at("2024-08-12"))),
    GERMINATION(
        bad ->
            List.of(
                Facts.germination(bad, 60, 61, 59, 60)
                    .with(test -> test.setSampleId(of(bad)))
                    .at("2024-08-12"))),
    REPLICATES_APART(
        bad ->
            List.of(
                Facts.germination(bad, 90, 70, 80, 80)
                    .with(test -> test.setSampleId(of(bad)))
                    .at("2024-08-12"))),
    MOISTURE(
        bad ->
            List.of(
                Facts.moisture(bad, 18).with(test -> test.setSampleId(of(bad))).at("2024-08-12"))),
    ERGOT(
        bad ->
            List.of(
                Facts.otherSeeds(bad)
                    .with(sample -> sample.setErgotBodies(30).setSampleId(of(bad)))
                    .at("2024-08-12"))),
    SECOND_SAMPLE_MISSING(
        bad ->
            List.of(
                Facts.otherSeeds(bad)
                    .with(sample -> sample.setErgotBodies(5).setSampleId(of(bad)))
                    .at("2024-08-12"))),
    OTHER_SEEDS(
        bad ->
            List.of(
                Facts.otherSeeds(bad)
                    .with(sample -> sample.setOtherCereals(9).setSampleId(of(bad)))
                    .at("2024-08-12"))),
    OFF_TYPES_IN_A_PLOT(bad -> List.of(Facts.postControl(bad, 2000, 400).at("2025-07-01"))),
    NOT_WHAT_IT_IS_CALLED(
        bad ->
            List.of(
                Facts.postControl(bad, 2000, 0)
                    .with(result -> result.setIdentityConfirmed(false))
                    .at("2025-07-01"))),
    PLOT_IN_WINTER(bad -> List.of(Facts.postControl(bad, 2000, 0).at("2024-12-20"))),
    TESTED_BEFORE_ITS_HARVEST(
        bad ->
            List.of(
                Facts.moisture(bad, 13).with(test -> test.setSampleId(of(bad))).at("2024-05-02"))),
    TOO_DRY_TO_BE_TRUE(
        bad ->
            List.of(
                Facts.moisture(bad, 1.3).with(test -> test.setSampleId(of(bad))).at("2024-08-12"))),
    DECLARED_TWICE(
        bad ->
            List.of(
                Facts.declared(bad, Facts.HYBRID, Category.CERTIFIED, KG)
                    .with(lot -> lot.setRulebookId("US"))
                    .at("2024-08-01"))),
    SOLD_TWICE(bad -> List.of(Facts.dispatch(bad, 100 * KG).at("2024-08-20"))),
    CORRECTED_BY_A_RETEST(
        bad ->
            List.of(
                Facts.moisture(bad, 12.9)
                    .with(test -> test.setSampleId("another"))
                    .correcting("moisture of " + bad + " of 2024-08-11", "a better one")
                    .at("2024-08-13")));

    private final Function<String, List<Draft<?>>> fails;

    Failure(Function<String, List<Draft<?>>> fails) {
      this.fails = fails;
    }

    /** A treatment may have ended what germinates badly. */
    boolean isEndedByTreating() {
      return this == GERMINATION || this == REPLICATES_APART;
    }
  }

  private static String of(String lot) {
    return "S-" + lot;
  }

  @Property(tries = 250)
  void isNeverBetter(@ForAll long seed) {
    Failure failure = Failure.values()[new Random(seed).nextInt(Failure.values().length - 1) + 1];
    Plan plan = new Plan(new Random(seed), failure);
    Fitness before = plan.judged().state("BAD");
    plan.move();

    JudgedFacts after = plan.judged();
    assertThat(before).isNotEqualTo(Fitness.FIT);
    for (Heap heap : plan.heaps) {
      if (heap.isTainted) {
        assertThat(BEST_FIRST.indexOf(after.state(heap.lot)))
            .as("%s of %s: %s", heap.lot, failure, plan)
            .isGreaterThanOrEqualTo(BEST_FIRST.indexOf(before));
      }
    }
  }

  @Property(tries = 80)
  void ofGoodSeedIsFit(@ForAll long seed) {
    Plan plan = new Plan(new Random(seed), Failure.NONE);
    plan.move();

    JudgedFacts judged = plan.judged();
    for (Heap heap : plan.heaps) {
      assertThat(judged.state(heap.lot))
          .as("%s: %s %s", heap.lot, plan, judged.standing("lot:" + heap.lot))
          .isEqualTo(Fitness.FIT);
    }
  }

  /** Seed of a lot as far as it has not gone on. */
  private record Heap(String lot, double kg, boolean isTainted) {}

  private static final class Plan {
    private final Random random;
    private final Failure failure;
    private final List<Draft<?>> facts = new ArrayList<>();
    private final List<Heap> heaps = new ArrayList<>();
    private final List<String> moves = new ArrayList<>();
    private int lots;

    Plan(Random random, Failure failure) {
      this.random = random;
      this.failure = failure;
      facts.add(Facts.laboratory("LAB1"));
      for (String lot : List.of("BAD", "GOOD")) {
        facts.add(
            Facts.declared(lot, Facts.HYBRID, Category.CERTIFIED, KG)
                .with(declared -> declared.setRulebookId("DE"))
                .at("2024-08-01"));
        test(lot, KG, "2024-08-11");
      }
      facts.addAll(failure.fails.apply("BAD"));
      heaps.add(new Heap("BAD", KG, true));
      heaps.add(new Heap("GOOD", KG, false));
    }

    JudgedFacts judged() {
      return JudgedFacts.by(JUDGE, facts);
    }

    void move() {
      int times = 1 + random.nextInt(5);
      for (int i = 0; i < times; i++) {
        LocalDate day = FIRST_MOVE.plusDays(2 * i);
        Heap heap = heaps.remove(random.nextInt(heaps.size()));
        moves.add(heap.lot + " on " + day);
        move(heap, day.toString(), day.plusDays(1).toString());
      }
    }

    private void move(Heap heap, String on, String next) {
      switch (random.nextInt(9)) {
        case 0 -> {
          Heap one = part(heap, 0.4);
          Heap other = part(heap, 0.6);
          facts.add(Facts.split(heap.lot).into(one.lot, one.kg).into(other.lot, other.kg).at(on));
          testPerhaps(one, next);
          testPerhaps(other, next);
        }
        case 1 -> {
          Heap whole = part(heap, 1);
          facts.add(Facts.split(heap.lot).into(whole.lot, whole.kg).at(on));
          testPerhaps(whole, next);
        }
        case 2 -> {
          if (heaps.isEmpty()) {
            heaps.add(heap);
            return;
          }
          Heap other = heaps.remove(random.nextInt(heaps.size()));
          Heap all = made(heap.kg + other.kg, heap.isTainted || other.isTainted, "merged");
          facts.add(Facts.merge(all.lot).of(heap.lot, heap.kg).of(other.lot, other.kg).at(on));
          test(all.lot, all.kg, next);
        }
        case 3, 4 -> {
          double screeningsKg = random.nextBoolean() ? 0 : 0.005 * heap.kg;
          Heap made = made(heap.kg - screeningsKg, heap.isTainted, "conditioned");
          facts.add(
              Facts.conditioning()
                  .from(heap.lot, heap.kg)
                  .into(made.lot, made.kg)
                  .screenings(screeningsKg)
                  .at(on));
          test(made.lot, made.kg, next);
        }
        case 5 -> treat(heap, on, next);
        case 6 -> {
          Heap made = part(heap, 1);
          String first = "first of " + made.lot;
          facts.add(Facts.split(heap.lot).into("not " + made.lot, heap.kg).id(first).at(on));
          if (random.nextBoolean() && failure != Failure.NONE) {
            test("not " + made.lot, heap.kg, next);
          }
          facts.add(
              Facts.split(heap.lot).into(made.lot, made.kg).correcting(first, "wrong lot").at(on));
          testPerhaps(made, next);
        }
        default -> {
          Heap off = part(heap, 0.3);
          facts.add(Facts.split(heap.lot).into(off.lot, off.kg).at(on));
          testPerhaps(off, next);
          heaps.add(new Heap(heap.lot, heap.kg - off.kg, heap.isTainted));
        }
      }
    }

    private void treat(Heap heap, String on, String next) {
      if (failure.isEndedByTreating() && heap.isTainted) {
        heaps.add(heap);
        return;
      }
      Heap made = made(heap.kg, heap.isTainted, "treated");
      facts.add(
          Facts.conditioning()
              .from(heap.lot, heap.kg)
              .into(made.lot, made.kg)
              .treatedWith("invented dressing")
              .at(on));
      test(made.lot, made.kg, next);
    }

    private Heap part(Heap of, double share) {
      return made(share * of.kg, of.isTainted, "divided");
    }

    private Heap made(double kg, boolean isTainted, String how) {
      Heap heap = new Heap("N" + ++lots, kg, isTainted);
      moves.add(how + " " + heap);
      heaps.add(heap);
      return heap;
    }

    private void testPerhaps(Heap heap, String on) {
      if (random.nextBoolean()) {
        test(heap.lot, heap.kg, on);
      }
    }

    /** Good tests of a good sample. */
    private void test(String lot, double kg, String on) {
      String sample = of(lot);
      moves.add("tested " + lot);
      facts.addAll(
          List.of(
              Facts.sampling(lot, 40, kg, 200)
                  .with(drawn -> drawn.setSampleId(sample).setContainers(null))
                  .at(on),
              Facts.germination(lot, 95, 94, 96, 95).with(test -> test.setSampleId(sample)).at(on),
              Facts.purity(lot, 119.4, 0.5, 0.1).with(test -> test.setSampleId(sample)).at(on),
              Facts.moisture(lot, 13)
                  .with(test -> test.setSampleId(sample))
                  .id("moisture of " + lot + " of " + on)
                  .at(on),
              Facts.otherSeeds(lot).with(test -> test.setSampleId(sample)).at(on)));
    }

    @Override
    public String toString() {
      return String.join("; ", moves);
    }
  }
}
