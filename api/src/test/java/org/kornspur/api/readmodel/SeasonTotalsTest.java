package org.kornspur.api.readmodel;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Collections;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.Function;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.domains.Domain;
import net.jqwik.api.domains.DomainContext;
import org.kornspur.api.readmodel.StandingChanges.Change;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.standing.LotStanding;
import org.kornspur.standing.StandingState;
import org.kornspur.standing.VerdictState;

/**
 * The totals that the index keeps of seasons, held against a plain count of the latest standing of
 * each subject.
 */
@Domain(StandingChanges.class)
@Domain(DomainContext.Global.class)
class SeasonTotalsTest {
  private static final List<Optional<String>> HYBRIDS =
      List.of(Optional.empty(), Optional.of("H-1"), Optional.of("H-2"), Optional.of("H-NONE"));

  @Property(tries = 300)
  void areThoseOfTheLatestStandings(@ForAll List<Change> changes) {
    Collection<LotStanding> latest = latest(changes).values();
    StandingIndex index = after(changes);

    for (Subject.Kind kind : List.of(Subject.Kind.LOT, Subject.Kind.CROP)) {
      for (Optional<String> hybridId : HYBRIDS) {
        assertThat(index.seasons(kind, SeasonFilter.ofHybrid(hybridId)))
            .isEqualTo(counted(latest, kind, hybridId));
      }
    }
  }

  @Property(tries = 300)
  void areWalkedForALineOrAMultiplier(
      @ForAll List<Change> changes, @ForAll Set<Subject> seen, @ForAll boolean ofOneHolder) {
    SeasonFilter filter =
        new SeasonFilter(
            Optional.empty(),
            Optional.of("C-1"),
            ofOneHolder ? Optional.of("ENT-1") : Optional.empty());
    List<LotStanding> wanted =
        latest(changes).values().stream()
            .filter(one -> one.getMaterial() != null)
            .filter(one -> one.getMaterial().getSeedId().equals("C-1"))
            .filter(one -> !ofOneHolder || "ENT-1".equals(one.getHolder()))
            .toList();

    assertThat(after(changes).seasons(Subject.Kind.LOT, filter))
        .isEqualTo(counted(wanted, Subject.Kind.LOT, Optional.empty()));
    assertThat(
            after(changes).seasons(Subject.Kind.LOT, filter, row -> seen.contains(row.subject())))
        .isEqualTo(
            counted(
                wanted.stream()
                    .filter(one -> seen.contains(Subject.parse(one.getSubject())))
                    .toList(),
                Subject.Kind.LOT,
                Optional.empty()));
  }

  @Property(tries = 300)
  void doNotDependOnTheOrderInWhichSubjectsCame(
      @ForAll List<Change> changes, @ForAll Random random) {
    List<Change> shuffled = new ArrayList<>(changes);
    Collections.shuffle(shuffled, random);
    shuffled.addAll(changes);

    for (Optional<String> hybridId : HYBRIDS) {
      assertThat(after(shuffled).seasons(Subject.Kind.LOT, SeasonFilter.ofHybrid(hybridId)))
          .isEqualTo(after(changes).seasons(Subject.Kind.LOT, SeasonFilter.ofHybrid(hybridId)));
    }
  }

  @Property(tries = 300)
  void countNothingThatIsNotSeen(@ForAll List<Change> changes, @ForAll Set<Subject> seen) {
    List<Change> seenAlone = changes.stream().filter(one -> seen.contains(one.subject())).toList();

    for (Optional<String> hybridId : HYBRIDS) {
      assertThat(
              after(changes)
                  .seasons(
                      Subject.Kind.LOT,
                      SeasonFilter.ofHybrid(hybridId),
                      row -> seen.contains(row.subject())))
          .isEqualTo(after(seenAlone).seasons(Subject.Kind.LOT, SeasonFilter.ofHybrid(hybridId)));
    }
  }

  @Property(tries = 300)
  void theCropsOfF1SeedAreThoseOfTheLatestStandings(@ForAll List<Change> changes) {
    Map<Subject, String> f1 = new HashMap<>();
    latest(changes)
        .forEach(
            (subject, standing) -> {
              if (subject.kind() == Subject.Kind.CROP
                  && standing.getMaterial() != null
                  && standing.getMaterial().getKind().equals("F1_SEED")) {
                f1.put(subject, standing.getMaterial().getHybridId());
              }
            });

    assertThat(after(changes).f1Crops()).isEqualTo(f1);
  }

  private static List<SeasonTotal> counted(
      Collection<LotStanding> latest, Subject.Kind kind, Optional<String> hybridId) {
    Map<Integer, List<LotStanding>> byYear = new HashMap<>();
    latest.stream()
        .filter(one -> Subject.parse(one.getSubject()).kind() == kind)
        .filter(one -> one.getMaterial() != null)
        .filter(one -> hybridId.map(one.getMaterial().getHybridId()::equals).orElse(true))
        .forEach(
            one ->
                byYear
                    .computeIfAbsent(one.getMaterial().getCropYear(), year -> new ArrayList<>())
                    .add(one));
    return byYear.entrySet().stream()
        .map(season -> total(season.getKey(), season.getValue()))
        .sorted(Comparator.comparingInt(SeasonTotal::year).reversed())
        .toList();
  }

  private static SeasonTotal total(int year, List<LotStanding> standings) {
    int fit = count(standings, StandingState.FIT);
    int notFit = count(standings, StandingState.NOT_FIT);
    return new SeasonTotal(
        year,
        fit,
        standings.size() - fit - notFit,
        notFit,
        sum(standings, one -> kg(one.getHeldKg()).subtract(kg(one.getGivenOutKg())).max(kg(0))),
        sum(standings, one -> kg(one.getGivenOutKg())),
        causes(standings));
  }

  private static TreeMap<String, Integer> causes(Collection<LotStanding> standings) {
    TreeMap<String, Integer> causes = new TreeMap<>();
    for (LotStanding standing : standings) {
      if (standing.getState() == StandingState.NOT_FIT) {
        Set<String> gates = new TreeSet<>();
        standing.getVerdicts().stream()
            .filter(one -> one.getState() == VerdictState.NOT_MET)
            .forEach(one -> gates.add(one.getGate()));
        standing.getInherited().stream()
            .filter(one -> one.getWeight().equals("CONDEMNS"))
            .forEach(one -> gates.add(one.getGate()));
        gates.forEach(gate -> causes.merge(gate, 1, Integer::sum));
      }
    }
    return causes;
  }

  private static int count(List<LotStanding> standings, StandingState state) {
    return (int) standings.stream().filter(one -> one.getState() == state).count();
  }

  private static double sum(List<LotStanding> standings, Function<LotStanding, BigDecimal> massKg) {
    return standings.stream().map(massKg).reduce(BigDecimal.ZERO, BigDecimal::add).doubleValue();
  }

  private static BigDecimal kg(double mass) {
    return BigDecimal.valueOf(mass);
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

  private static Map<Subject, LotStanding> latest(List<Change> changes) {
    Map<Subject, LotStanding> latest = new HashMap<>();
    for (Change change : changes) {
      change
          .standing()
          .ifPresentOrElse(
              standing -> latest.put(change.subject(), standing),
              () -> latest.remove(change.subject()));
    }
    return latest;
  }
}
