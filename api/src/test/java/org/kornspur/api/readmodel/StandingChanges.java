package org.kornspur.api.readmodel;

import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.time.LocalDate;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.Provide;
import net.jqwik.api.domains.DomainContextBase;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.standing.ArgumentKind;
import org.kornspur.standing.GateVerdict;
import org.kornspur.standing.InheritedTrouble;
import org.kornspur.standing.LotRelease;
import org.kornspur.standing.LotStanding;
import org.kornspur.standing.ReleaseStep;
import org.kornspur.standing.SaidStatement;
import org.kornspur.standing.SeedMaterial;
import org.kornspur.standing.StandingState;
import org.kornspur.standing.StatementArgument;
import org.kornspur.standing.VerdictState;

/** Invented changes of the standings of a few crops and lots, in any order, with repeats. */
class StandingChanges extends DomainContextBase {
  private static final List<Subject> SUBJECTS =
      List.of(
          Subject.lot("A"),
          Subject.lot("B"),
          Subject.lot("C"),
          Subject.lot("D"),
          Subject.crop("A"),
          Subject.crop("B"),
          Subject.crop("E"));
  private static final List<String> GATES =
      List.of(
          "ISOLATION", "FIELD_INSPECTIONS", "GERMINATION", "MOISTURE", "GATE_OF_A_LATER_RELEASE");
  private static final List<Subject> SOURCES =
      List.of(Subject.source("N"), Subject.crop("A"), Subject.crop("E"));
  private static final LocalDate FIRST_DAY = LocalDate.of(2025, 5, 20);

  /**
   * One record of the topic.
   *
   * @param standing empty for a tombstone
   */
  record Change(Subject subject, Optional<LotStanding> standing, Instant at) {

    /** Stands for the record; tells standings of other times and contents apart. */
    byte[] bytes() {
      return (at + " " + standing).getBytes(StandardCharsets.UTF_8);
    }
  }

  /** Of certain kinds, narrowed by nothing else. */
  static StandingQuery query(Set<Subject.Kind> kinds) {
    return query(kinds, Optional.empty(), Optional.empty(), Optional.empty(), Optional.empty());
  }

  private static StandingQuery query(
      Set<Subject.Kind> kinds,
      Optional<String> hybridId,
      Optional<Integer> cropYear,
      Optional<String> holder,
      Optional<String> idPrefix) {
    return new StandingQuery(
        kinds,
        Set.of(),
        Set.of(),
        hybridId,
        Optional.empty(),
        Optional.empty(),
        cropYear,
        holder,
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        false,
        idPrefix,
        StandingQuery.Order.WORST,
        1,
        50);
  }

  @Provide
  Arbitrary<List<Change>> changes() {
    return change().list().ofMaxSize(40);
  }

  @Provide
  Arbitrary<Set<Subject>> seen() {
    return Arbitraries.of(SUBJECTS).set();
  }

  @Provide
  Arbitrary<StandingQuery> narrowed() {
    return Combinators.combine(
            Arbitraries.of(
                Set.of(Subject.Kind.LOT),
                Set.of(Subject.Kind.CROP),
                EnumSet.of(Subject.Kind.LOT, Subject.Kind.CROP)),
            Arbitraries.of("H-1", "H-2").optional(),
            Arbitraries.of(2023, 2024).optional(),
            Arbitraries.of("ENT-1", "ENT-2").optional(),
            Arbitraries.of("a", "B").optional(0.2))
        .as(StandingChanges::query);
  }

  private static Arbitrary<Change> change() {
    Arbitrary<Instant> times = Arbitraries.longs().between(0, 3).map(Instant::ofEpochSecond);
    return Combinators.combine(Arbitraries.of(SUBJECTS), standings().optional(0.8), times)
        .as(
            (subject, standing, at) ->
                new Change(
                    subject, standing.map(one -> one.setSubject(subject.toString()).build()), at));
  }

  private static Arbitrary<LotStanding.Builder> standings() {
    return Combinators.combine(
            troubles(),
            masses(),
            materials().injectNull(0.2),
            Arbitraries.of("ENT-1", "ENT-2").injectNull(0.2),
            releases().injectNull(0.5),
            days().injectNull(0.3),
            days().injectNull(0.3))
        .as(
            (standing, massesKg, material, holder, release, from, to) ->
                standing
                    .setHeldKg(massesKg.get(0))
                    .setGivenOutKg(massesKg.get(1))
                    .setCustomersKg(massesKg.get(2))
                    .setMaterial(material)
                    .setHolder(holder)
                    .setRelease(release)
                    .setFloweringFrom(from)
                    .setFloweringTo(to));
  }

  private static Arbitrary<LotStanding.Builder> troubles() {
    return Combinators.combine(
            Arbitraries.of(StandingState.NOT_FIT, StandingState.EVIDENCE_OWED, StandingState.FIT),
            verdict().list().ofMaxSize(4),
            inherited().list().ofMaxSize(3))
        .as(
            (state, verdicts, inherited) ->
                LotStanding.newBuilder()
                    .setState(state)
                    .setVerdicts(verdicts)
                    .setInherited(inherited)
                    .setParents(List.of()));
  }

  /** Foreign pollen that stands too near, as the gate of isolation says it; or nothing of it. */
  private static Arbitrary<List<SaidStatement>> pollen() {
    return Arbitraries.of(SOURCES)
        .map(
            source ->
                List.of(
                    new SaidStatement(
                        "isolation.nearest",
                        List.of(
                            StatementArgument.newBuilder()
                                .setName("source")
                                .setKind(ArgumentKind.STATEMENT)
                                .setStatement(
                                    new SaidStatement(
                                        "isolation.source",
                                        List.of(
                                            StatementArgument.newBuilder()
                                                .setName("source")
                                                .setKind(ArgumentKind.SUBJECT)
                                                .setText(source.toString())
                                                .build())))
                                .build()))))
        .injectNull(0.5)
        .map(found -> found == null ? List.<SaidStatement>of() : found);
  }

  /** The source that {@link #pollen} names. */
  static String sourceIn(List<SaidStatement> findings) {
    return findings.get(0).getArguments().get(0).getStatement().getArguments().get(0).getText();
  }

  private static Arbitrary<GateVerdict> verdict() {
    return Combinators.combine(
            Arbitraries.of(GATES),
            Arbitraries.of(VerdictState.MET, VerdictState.NOT_MET, VerdictState.OWED),
            pollen())
        .as(
            (gate, state, findings) ->
                GateVerdict.newBuilder()
                    .setGate(gate)
                    .setAspect("")
                    .setState(state)
                    .setFactIds(List.of())
                    .setSentence("invented")
                    .setFindings(findings)
                    .build());
  }

  private static Arbitrary<InheritedTrouble> inherited() {
    return Combinators.combine(
            Arbitraries.of("POST_CONTROL", "ISOLATION"),
            Arbitraries.of("CONDEMNS", "OWED"),
            Arbitraries.of(SUBJECTS),
            pollen())
        .as(
            (gate, weight, origin, findings) ->
                new InheritedTrouble(
                    gate,
                    "",
                    weight,
                    origin.toString(),
                    List.of(),
                    List.of(),
                    "invented",
                    null,
                    findings));
  }

  /** Tenths of kilograms: their binary sums depend on the order in which they are added. */
  private static Arbitrary<List<Double>> masses() {
    return Arbitraries.integers().between(0, 999).map(tenths -> tenths / 10.0).list().ofSize(3);
  }

  private static Arbitrary<SeedMaterial> materials() {
    return Combinators.combine(
            Arbitraries.of("H-1", "H-2"),
            Arbitraries.of("C-1", "C-2"),
            Arbitraries.of(2023, 2024),
            Arbitraries.of("COMPONENT", "F1_SEED"))
        .as(
            (hybrid, seed, year, kind) ->
                new SeedMaterial(hybrid, seed, kind, "BASIC", year, "EU"));
  }

  private static Arbitrary<LotRelease> releases() {
    return Arbitraries.of(ReleaseStep.values())
        .flatMap(
            step ->
                Arbitraries.of(0.0, 12.5)
                    .map(
                        kg ->
                            LotRelease.newBuilder()
                                .setStep(step)
                                .setDispatchedUnreleasedKg(kg)
                                .build()));
  }

  private static Arbitrary<LocalDate> days() {
    return Arbitraries.integers().between(0, 2).map(FIRST_DAY::plusDays);
  }
}
