package org.kornspur.api.readmodel;

import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.time.LocalDate;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.Predicate;
import java.util.stream.Stream;
import org.kornspur.api.readmodel.StandingChanges.Change;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.standing.GateVerdict;
import org.kornspur.standing.LotRelease;
import org.kornspur.standing.LotStanding;
import org.kornspur.standing.ReleaseStep;
import org.kornspur.standing.SaidStatement;
import org.kornspur.standing.SeedMaterial;
import org.kornspur.standing.StandingState;
import org.kornspur.standing.VerdictState;

/**
 * Finds what waits by looking into every standing, again for each question, with exact decimal sums
 * and nothing kept.
 */
final class WaitingWalk {
  private final List<Change> latest;

  WaitingWalk(Collection<Change> latest) {
    this.latest = List.copyOf(latest);
  }

  /** What waits, in a form that can be compared. */
  record Shown(
      List<Cause> causes,
      int allCauses,
      List<Owed> owed,
      long allOwed,
      ReleaseDecision suspended,
      ReleaseDecision proposed,
      ReleaseDecision dispatched) {}

  record Cause(
      String key,
      List<Subject> origins,
      Instant changedAt,
      String record,
      int lots,
      int released,
      double leftKg,
      double customersKg) {}

  record Owed(
      Subject subject, Optional<LocalDate> day, boolean isBefore, int pieces, String record) {}

  record ReleaseDecision(int all, List<Release> first) {}

  record Release(Subject lot, String record) {}

  static Shown shown(Worklist waiting) {
    return new Shown(
        waiting.causes().stream()
            .map(
                cause ->
                    new Cause(
                        cause.key().text(),
                        cause.origins(),
                        cause.origin().changedAt(),
                        text(cause.standing()),
                        cause.lots(),
                        cause.released(),
                        cause.leftKg(),
                        cause.customersKg()))
            .toList(),
        waiting.allCauses(),
        waiting.owed().stream()
            .map(
                owed ->
                    new Owed(
                        owed.until().subject(),
                        owed.until().due().map(FloweringDue::day),
                        owed.until().due().map(FloweringDue::beforeFlowering).orElse(false),
                        owed.until().pieces(),
                        text(owed.standing())))
            .toList(),
        waiting.allOwed(),
        shown(waiting.suspended()),
        shown(waiting.proposed()),
        shown(waiting.dispatchedUnreleased()));
  }

  private static ReleaseDecision shown(ResultPage<Worklist.Release> releases) {
    return new ReleaseDecision(
        releases.total(),
        releases.items().stream()
            .map(one -> new Release(one.lot().subject(), text(one.standing())))
            .toList());
  }

  private static String text(CompressedRecord packed) {
    return new String(packed.unpacked(), StandardCharsets.UTF_8);
  }

  Shown found(StandingQuery query, Predicate<Change> seen, int most) {
    List<Change> asked = latest.stream().filter(seen).filter(one -> matches(query, one)).toList();
    List<Cause> causes = causes(asked, latest.stream().filter(seen).toList());
    List<Owed> owed = owed(asked);
    return new Shown(
        causes.stream().limit(most).toList(),
        causes.size(),
        firstHolding(most, owed),
        owed.stream().mapToLong(Owed::pieces).sum(),
        releases(asked, release -> release.getStep() == ReleaseStep.SUSPENDED, most),
        releases(asked, release -> release.getStep() == ReleaseStep.PROPOSED, most),
        releases(
            asked,
            release ->
                release.getStep() != ReleaseStep.RELEASED
                    && release.getDispatchedUnreleasedKg() > 0,
            most));
  }

  private static boolean matches(StandingQuery query, Change change) {
    LotStanding standing = change.standing().orElseThrow();
    Optional<SeedMaterial> material = Optional.ofNullable(standing.getMaterial());
    return query.kinds().contains(change.subject().kind())
        && (query.hybridId().isEmpty()
            || query.hybridId().equals(material.map(SeedMaterial::getHybridId)))
        && (query.cropYear().isEmpty()
            || query.cropYear().equals(material.map(SeedMaterial::getCropYear)))
        && (query.holder().isEmpty()
            || query.holder().equals(Optional.ofNullable(standing.getHolder())))
        && (query.idPrefix().isEmpty()
            || query.idPrefix().get().equalsIgnoreCase(change.subject().id()));
  }

  private static List<Cause> causes(List<Change> asked, List<Change> seen) {
    return asked.stream()
        .flatMap(one -> origins(one).keySet().stream())
        .distinct()
        .flatMap(key -> cause(key, asked, seen).stream())
        .sorted(
            Comparator.comparingDouble((Cause cause) -> -cause.customersKg())
                .thenComparing(cause -> -cause.leftKg())
                .thenComparing(Comparator.comparing(Cause::changedAt).reversed())
                .thenComparing(cause -> cause.key().startsWith("pollen"))
                .thenComparing(Cause::key))
        .toList();
  }

  /** Of those that do not meet a gate for it only what is seen; where nothing is, there is none. */
  private static Optional<Cause> cause(String key, List<Change> asked, List<Change> seen) {
    List<Change> reached = asked.stream().filter(one -> origins(one).containsKey(key)).toList();
    Set<Subject> named = new HashSet<>();
    reached.forEach(one -> named.addAll(origins(one).get(key)));
    List<Change> origins =
        seen.stream()
            .filter(one -> named.contains(one.subject()))
            .sorted(Comparator.comparing(Change::subject))
            .toList();
    List<LotStanding> lots =
        reached.stream()
            .filter(one -> one.subject().kind() == Subject.Kind.LOT)
            .map(one -> one.standing().orElseThrow())
            .toList();
    return origins.stream()
        .findFirst()
        .map(
            first ->
                new Cause(
                    key,
                    origins.stream().map(Change::subject).toList(),
                    first.at(),
                    text(first),
                    lots.size(),
                    (int) lots.stream().filter(WaitingWalk::isReleased).count(),
                    sum(
                        lots.stream()
                            .map(
                                lot ->
                                    decimal(lot.getHeldKg()).subtract(decimal(lot.getGivenOutKg())))
                            .map(BigDecimal.ZERO::max)),
                    sum(lots.stream().map(lot -> decimal(lot.getCustomersKg())))));
  }

  private static boolean isReleased(LotStanding lot) {
    return lot.getRelease() != null
        && Set.of(ReleaseStep.RELEASED, ReleaseStep.PROPOSED, ReleaseStep.SUSPENDED)
            .contains(lot.getRelease().getStep());
  }

  /** Each cause with what does not meet a gate for it. */
  private static Map<String, Set<Subject>> origins(Change change) {
    LotStanding standing = change.standing().orElseThrow();
    Map<String, Set<Subject>> origins = new TreeMap<>();
    if (standing.getState() == StandingState.NOT_FIT) {
      standing.getInherited().stream()
          .filter(trouble -> trouble.getWeight().equals("CONDEMNS"))
          .forEach(
              trouble ->
                  add(
                      origins,
                      trouble.getGate(),
                      trouble.getFindings(),
                      Subject.parse(trouble.getOrigin())));
      standing.getVerdicts().stream()
          .filter(verdict -> verdict.getState() == VerdictState.NOT_MET)
          .forEach(
              verdict -> add(origins, verdict.getGate(), verdict.getFindings(), change.subject()));
    }
    return origins;
  }

  private static void add(
      Map<String, Set<Subject>> origins, String gate, List<SaidStatement> findings, Subject of) {
    String key =
        gate.equals("ISOLATION") && !findings.isEmpty()
            ? "pollen:" + StandingChanges.sourceIn(findings)
            : "seed:" + of;
    origins.computeIfAbsent(key, one -> new HashSet<>()).add(of);
  }

  private static BigDecimal decimal(double kg) {
    return BigDecimal.valueOf(kg);
  }

  private static double sum(Stream<BigDecimal> massesKg) {
    return massesKg.reduce(BigDecimal.ZERO, BigDecimal::add).doubleValue();
  }

  private static List<Owed> owed(List<Change> asked) {
    return asked.stream()
        .flatMap(
            one ->
                Stream.of(
                    owed(one, "ISOLATION", true),
                    owed(one, "FIELD_INSPECTIONS", false),
                    owedWithoutDay(one)))
        .filter(owed -> owed.pieces() > 0)
        .sorted(
            Comparator.comparing((Owed owed) -> owed.day().orElse(LocalDate.MAX))
                .thenComparing(owed -> owed.subject().toString())
                .thenComparing(owed -> !owed.isBefore()))
        .toList();
  }

  /** Of the gates of {@link StandingChanges} these two alone look at the crop on the field. */
  private static Owed owed(Change change, String gate, boolean isBefore) {
    Optional<LocalDate> day = day(change, gate);
    int pieces = day.isEmpty() ? 0 : (int) owing(change).filter(gate::equals).count();
    return new Owed(change.subject(), day, isBefore, pieces, text(change));
  }

  private static Owed owedWithoutDay(Change change) {
    int pieces = (int) owing(change).filter(gate -> day(change, gate).isEmpty()).count();
    return new Owed(change.subject(), Optional.empty(), false, pieces, text(change));
  }

  private static Optional<LocalDate> day(Change change, String gate) {
    LotStanding standing = change.standing().orElseThrow();
    if (change.subject().kind() != Subject.Kind.CROP) {
      return Optional.empty();
    }
    return switch (gate) {
      case "ISOLATION" -> Optional.ofNullable(standing.getFloweringFrom());
      case "FIELD_INSPECTIONS" -> Optional.ofNullable(standing.getFloweringTo());
      default -> Optional.empty();
    };
  }

  private static Stream<String> owing(Change change) {
    return change.standing().orElseThrow().getVerdicts().stream()
        .filter(verdict -> verdict.getState() == VerdictState.OWED)
        .map(GateVerdict::getGate);
  }

  private static List<Owed> firstHolding(int most, List<Owed> owed) {
    int first = 0;
    int pieces = 0;
    while (first < owed.size() && pieces < most) {
      pieces += owed.get(first).pieces();
      first++;
    }
    return owed.subList(0, first);
  }

  private static ReleaseDecision releases(
      List<Change> asked, Predicate<LotRelease> wanted, int most) {
    List<Release> all =
        asked.stream()
            .filter(
                one ->
                    Optional.ofNullable(one.standing().orElseThrow().getRelease())
                        .filter(wanted)
                        .isPresent())
            .sorted(
                Comparator.comparing(WaitingWalk::urgency)
                    .thenComparing(one -> one.subject().id())
                    .thenComparing(one -> one.subject().kind()))
            .map(one -> new Release(one.subject(), text(one)))
            .toList();
    return new ReleaseDecision(all.size(), all.stream().limit(most).toList());
  }

  private static int urgency(Change change) {
    return List.of(StandingState.NOT_FIT, StandingState.EVIDENCE_OWED, StandingState.FIT)
        .indexOf(change.standing().orElseThrow().getState());
  }

  SeedValues values() {
    TreeSet<Integer> years = new TreeSet<>(Comparator.reverseOrder());
    TreeSet<String> hybrids = new TreeSet<>();
    TreeSet<String> seeds = new TreeSet<>();
    TreeSet<String> holders = new TreeSet<>();
    for (Change change : latest) {
      LotStanding standing = change.standing().orElseThrow();
      if (standing.getMaterial() != null) {
        years.add(standing.getMaterial().getCropYear());
        hybrids.add(standing.getMaterial().getHybridId());
        seeds.add(standing.getMaterial().getSeedId());
      }
      if (standing.getHolder() != null) {
        holders.add(standing.getHolder());
      }
    }
    return new SeedValues(
        List.copyOf(years), List.copyOf(hybrids), List.copyOf(seeds), List.copyOf(holders));
  }

  private static String text(Change change) {
    return new String(change.bytes(), StandardCharsets.UTF_8);
  }
}
