package org.kornspur.processors.gates;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.kornspur.ingest.intake.Counted;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.pedigree.Edge;
import org.kornspur.processors.standards.Rulebook;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.processors.verdict.Measured;
import org.kornspur.processors.verdict.Verdict;

/**
 * Where seed comes from hangs together: nothing is its own ancestor, and nothing was given out
 * before it was there. Days are those of UTC, so that a fact with a time and one with only a day
 * agree.
 *
 * <p>Common sense of the pedigree; no limit of a text.
 */
final class Origin implements GateRule {

  @Override
  public Gate gate() {
    return Gate.ORIGIN;
  }

  @Override
  public List<Verdict> judge(Dossier dossier, Rulebook rulebook) {
    return switch (dossier.subject().kind()) {
      case LOT, CROP -> dossier.material().isPresent() ? judge(dossier) : List.of();
      case SOURCE, HYBRID, ENTERPRISE -> List.of();
    };
  }

  private static List<Verdict> judge(Dossier dossier) {
    List<Verdict> verdicts = new ArrayList<>();
    verdicts.add(OwnAncestor.judge(dossier).orElseGet(() -> noCircle(dossier)));
    order(dossier).ifPresent(verdicts::add);
    return verdicts;
  }

  private static Verdict noCircle(Dossier dossier) {
    return new Verdict.Met(
        Gate.ORIGIN,
        OwnAncestor.ASPECT,
        new Measured(0, "circles", 0, Optional.empty()),
        Optional.empty(),
        OwnAncestor.factIds(dossier),
        "Where %s comes from is on record, and it is not among its own ancestors."
            .formatted(dossier.subject()));
  }

  private static Optional<Verdict> order(Dossier dossier) {
    Optional<Instant> firstIn =
        Stream.concat(
                dossier.declaredLot().stream().map(lot -> lot.getHeader().getHappenedAt()),
                dossier.edgesIn().stream().map(Edge::happenedAt))
            .min(Instant::compareTo);
    Optional<Edge> firstOut =
        dossier.edgesOut().stream().min((a, b) -> a.happenedAt().compareTo(b.happenedAt()));
    if (firstIn.isEmpty() || firstOut.isEmpty()) {
      return Optional.empty();
    }
    LocalDate cameIn = day(firstIn.get());
    LocalDate wentOut = day(firstOut.get().happenedAt());
    long daysTooEarly = cameIn.toEpochDay() - wentOut.toEpochDay();
    Measured measured =
        new Measured(Math.max(0, daysTooEarly), "days", -daysTooEarly, Optional.empty());
    List<String> factIds = List.of(firstOut.get().factId());
    return Optional.of(
        daysTooEarly <= 0
            ? new Verdict.Met(
                Gate.ORIGIN,
                "order of days",
                measured,
                Optional.empty(),
                factIds,
                "Seed first came in on %s and first went out on %s.".formatted(cameIn, wentOut))
            : new Verdict.NotMet(
                Gate.ORIGIN,
                "order of days",
                measured,
                Optional.empty(),
                factIds,
                "Seed went out on %s by fact %s, %s before any came in (%s). Correct the day of one of these facts."
                    .formatted(
                        wentOut,
                        firstOut.get().factId(),
                        Counted.of(daysTooEarly, "day(s)"),
                        cameIn)));
  }

  private static LocalDate day(Instant instant) {
    return LocalDate.ofInstant(instant, ZoneOffset.UTC);
  }
}
