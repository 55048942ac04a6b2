package org.kornspur.api.readmodel;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collections;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.domains.Domain;
import net.jqwik.api.domains.DomainContext;
import net.jqwik.api.statistics.Statistics;
import net.jqwik.api.statistics.StatisticsCoverage;
import org.kornspur.api.readmodel.StandingChanges.Change;
import org.kornspur.ingest.contract.Subject;

/**
 * What the index keeps of what waits, held against {@link WaitingWalk}: a plain walk over the
 * latest standing of each subject.
 */
@Domain(StandingChanges.class)
@Domain(DomainContext.Global.class)
class WorklistTest {

  @Property(tries = 600)
  void isWhatAFullWalkFinds(
      @ForAll List<Change> changes, @ForAll @IntRange(min = 1, max = 5) int most) {
    WaitingWalk walk = new WaitingWalk(latest(changes).values());
    Worklist waiting = after(changes).waiting(all(), most);

    Statistics.label("more causes than shown")
        .collect(waiting.allCauses() > most)
        .coverage(WorklistTest::bothWays);
    Statistics.label("more owed than shown")
        .collect(waiting.allOwed() > most)
        .coverage(WorklistTest::bothWays);
    assertThat(WaitingWalk.shown(waiting)).isEqualTo(walk.found(all(), one -> true, most));
  }

  @Property(tries = 300)
  void whatIsOwedBetweenTwoDaysIsWhatIsOwedAndHasSuchADay(
      @ForAll List<Change> changes,
      @ForAll @IntRange(min = -5, max = 40) int first,
      @ForAll @IntRange(min = 0, max = 20) int days) {
    LocalDate from = LocalDate.of(2025, 5, 20).plusDays(first);
    LocalDate to = from.plusDays(days);
    List<EvidenceDeadline> expected =
        after(changes).waiting(all(), Integer.MAX_VALUE).owed().stream()
            .map(Worklist.Owed::until)
            .filter(
                one ->
                    one.due()
                        .map(FloweringDue::day)
                        .filter(day -> !day.isBefore(from) && !day.isAfter(to))
                        .isPresent())
            .toList();

    Statistics.label("some are owed between").collect(!expected.isEmpty());
    assertThat(after(changes).owedBetween(from, to)).isEqualTo(expected);
  }

  /** A cut list is rare, one in twenty or so, and must have been seen nevertheless. */
  private static void bothWays(StatisticsCoverage seen) {
    seen.check(true).count(times -> times > 5);
    seen.check(false).count(times -> times > 5);
  }

  @Property(tries = 300)
  void isWhatAFullWalkFindsOfWhatAFilterLeaves(
      @ForAll List<Change> changes, @ForAll StandingQuery query) {
    WaitingWalk walk = new WaitingWalk(latest(changes).values());

    assertThat(WaitingWalk.shown(after(changes).waiting(query, 3)))
        .isEqualTo(walk.found(query, one -> true, 3));
  }

  @Property(tries = 300)
  void doesNotDependOnTheOrderInWhichSubjectsCame(
      @ForAll List<Change> changes, @ForAll Random random) {
    List<Change> shuffled = new ArrayList<>(latest(changes).values());
    Collections.shuffle(shuffled, random);
    shuffled.addAll(shuffled.subList(0, shuffled.size() / 2));
    StandingIndex index = after(changes);
    StandingIndex other = after(shuffled);

    assertThat(WaitingWalk.shown(other.waiting(all(), 12)))
        .isEqualTo(WaitingWalk.shown(index.waiting(all(), 12)));
    assertThat(other.values()).isEqualTo(index.values());
  }

  @Property(tries = 300)
  void tellsNothingOfWhatIsNotSeen(@ForAll List<Change> changes, @ForAll Set<Subject> seen) {
    List<Change> seenAlone = changes.stream().filter(one -> seen.contains(one.subject())).toList();

    Worklist waiting = after(changes).waiting(all(), row -> seen.contains(row.subject()), 12);
    assertThat(WaitingWalk.shown(waiting))
        .isEqualTo(WaitingWalk.shown(after(seenAlone).waiting(all(), 12)))
        .isEqualTo(
            new WaitingWalk(latest(changes).values())
                .found(all(), one -> seen.contains(one.subject()), 12));
    assertThat(after(changes).values(row -> seen.contains(row.subject())))
        .isEqualTo(after(seenAlone).values());
  }

  @Property(tries = 300)
  void theValuesAreThoseThatSomeStandingHas(@ForAll List<Change> changes) {
    assertThat(after(changes).values())
        .isEqualTo(new WaitingWalk(latest(changes).values()).values());
  }

  private static StandingQuery all() {
    return StandingChanges.query(EnumSet.of(Subject.Kind.LOT, Subject.Kind.CROP));
  }

  private static StandingIndex after(List<Change> changes) {
    StandingIndex index = new StandingIndex();
    for (Change change : changes) {
      change
          .standing()
          .ifPresentOrElse(
              standing -> index.put(standing, change.bytes(), change.at()),
              () -> index.remove(change.subject()));
    }
    return index;
  }

  private static Map<Subject, Change> latest(List<Change> changes) {
    Map<Subject, Change> latest = new HashMap<>();
    for (Change change : changes) {
      if (change.standing().isPresent()) {
        latest.put(change.subject(), change);
      } else {
        latest.remove(change.subject());
      }
    }
    return latest;
  }
}
