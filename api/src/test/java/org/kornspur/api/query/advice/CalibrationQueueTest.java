package org.kornspur.api.query.advice;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.BiFunction;
import org.junit.jupiter.api.Test;
import org.kornspur.api.kafka.DossierChanges.Changed;
import org.kornspur.api.kafka.NotReady;
import org.kornspur.api.problem.NotReadyDetail;
import org.kornspur.ingest.contract.Subject;

class CalibrationQueueTest {
  private static final Duration LONG = Duration.ofMinutes(1);
  private static final Changed NOTHING = new Changed(false, Set.of());
  private static final Changed ALL = new Changed(true, Set.of());
  private static final Subject ONE = Subject.crop("C-1");
  private static final Subject TWO = Subject.crop("C-2");
  private static final Subject SOURCE = Subject.source("S-1");

  private final CalibrationIndex index = new CalibrationIndex();
  private final CalibrationQueue queue = new CalibrationQueue(index);
  private final List<Subject> calculated = new ArrayList<>();
  private final BiFunction<Subject, String, CropCalibration> calculation =
      (crop, hybridId) -> {
        calculated.add(crop);
        Set<Subject> restsOn = crop.equals(ONE) ? Set.of(ONE, SOURCE) : Set.of(crop);
        return new CropCalibration(crop, hybridId, List.of(), new TreeSet<>(), restsOn, true);
      };

  @Test
  void aChangeIsCalculatedAtOnceAndOnceMoreWhenNothingIsOnItsWay() {
    settle(crops(ONE, TWO));
    look(crops(ONE, TWO), new Changed(false, Set.of(SOURCE)), false);
    assertThat(calculated).containsExactly(ONE);
    assertThat(queue.isSettled()).isFalse();

    look(crops(ONE, TWO), NOTHING, false);
    assertThat(queue.isSettled()).as("something is still on its way").isFalse();

    calculated.clear();
    look(crops(ONE, TWO), NOTHING, true);
    assertThat(calculated).containsExactly(ONE);
    assertThat(queue.isSettled()).isTrue();
  }

  @Test
  void aChangeOfThisLookIsNotSettledByIt() {
    settle(crops(ONE));
    look(crops(ONE), new Changed(false, Set.of(ONE)), true);
    look(crops(ONE), new Changed(false, Set.of(ONE)), true);
    assertThat(queue.isSettled()).isFalse();
    look(crops(ONE), NOTHING, true);
    assertThat(queue.isSettled()).isTrue();
  }

  @Test
  void whatNothingRestsOnChangesNothing() {
    settle(crops(ONE));
    look(crops(ONE), new Changed(false, Set.of(Subject.lot("L-OTHER"))), true);
    assertThat(calculated).isEmpty();
    assertThat(queue.isSettled()).isTrue();
  }

  @Test
  void cropsThatComeAndGoAreSeen() {
    settle(crops(ONE));
    look(crops(TWO), NOTHING, true);
    assertThat(index.crops()).containsOnlyKeys(TWO);
    assertThat(calculated).containsExactly(TWO);
    assertThat(index.of(Optional.empty()).crops()).isEqualTo(1);
  }

  @Test
  void aCropOfAnotherHybridThanBeforeIsCalculated() {
    settle(crops(ONE));
    look(new TreeMap<>(Map.of(ONE, "H-2")), NOTHING, true);
    assertThat(index.crops()).isEqualTo(Map.of(ONE, "H-2"));
  }

  @Test
  void allAreCalculatedWhereWhatChangedIsNotKnown() {
    settle(crops(ONE, TWO));
    look(crops(ONE, TWO), ALL, true);
    assertThat(calculated).containsExactly(ONE, TWO);
    assertThat(queue.isSettled()).isFalse();
  }

  @Test
  void aDossierThatCannotBeHadHoldsUpNoOther() {
    queue.mark(crops(ONE, TWO), ALL);
    BiFunction<Subject, String, CropCalibration> failing =
        (crop, hybridId) -> {
          if (crop.equals(ONE)) {
            throw new NotReady(new NotReadyDetail.MovingWork(), 1);
          }
          return calculation.apply(crop, hybridId);
        };
    queue.work(failing, true, LONG);
    queue.mark(crops(ONE, TWO), NOTHING);
    queue.work(failing, true, LONG);
    assertThat(index.crops()).containsOnlyKeys(TWO);
    assertThat(queue.isSettled()).isFalse();

    look(crops(ONE, TWO), NOTHING, true);
    look(crops(ONE, TWO), NOTHING, true);
    assertThat(queue.isSettled()).isTrue();
  }

  @Test
  void whatTheTimeDoesNotReachForIsDoneLater() {
    queue.mark(crops(ONE, TWO), ALL);
    queue.work(calculation, true, Duration.ZERO);
    assertThat(calculated).containsExactly(ONE);
    queue.mark(crops(ONE, TWO), NOTHING);
    queue.work(calculation, true, Duration.ZERO);
    assertThat(calculated).containsExactly(ONE, TWO);
    assertThat(queue.isSettled()).isFalse();
  }

  private void settle(SortedMap<Subject, String> crops) {
    look(crops, ALL, true);
    look(crops, NOTHING, true);
    assertThat(queue.isSettled()).isTrue();
    calculated.clear();
  }

  private void look(SortedMap<Subject, String> crops, Changed changed, boolean atRest) {
    queue.mark(crops, changed);
    queue.work(calculation, atRest, LONG);
  }

  private static SortedMap<Subject, String> crops(Subject... crops) {
    SortedMap<Subject, String> named = new TreeMap<>();
    for (Subject crop : crops) {
      named.put(crop, "H-1");
    }
    return named;
  }
}
