package org.kornspur.api.page;

import jakarta.enterprise.context.RequestScoped;
import jakarta.inject.Inject;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.kornspur.api.feed.QuarantineRow;
import org.kornspur.api.feed.Slice;
import org.kornspur.api.feed.StandingQuery;
import org.kornspur.api.feed.StandingRow;
import org.kornspur.api.intake.Quarantine;
import org.kornspur.api.resource.Answers;
import org.kornspur.api.view.Addresses;
import org.kornspur.contract.FieldCropDeclared;
import org.kornspur.contract.QuarantineState;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.pedigree.Edge;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.standing.GateVerdict;
import org.kornspur.standing.LotStanding;
import org.kornspur.standing.ReleaseStep;
import org.kornspur.standing.StandingState;
import org.kornspur.standing.VerdictState;

/** Finds what needs quality now among all standings. */
@RequestScoped
public class Desks {

  /** Standings that are looked into for one page; more than a person can work through. */
  private static final int MOST_STANDINGS = 2000;

  private static final int SHOWN = 20;
  private static final int SHOWN_REFUSED = 5;

  @Inject Seen seen;
  @Inject Answers answers;
  @Inject Quarantine quarantine;
  @Inject Framing framing;

  /** The desk for what a question leaves. */
  Desk of(StandingQuery asked) {
    List<Desk.Cause> causes = causes(asked);
    List<Desk.Owed> owed = owed(asked);
    Slice<QuarantineRow> refused = quarantine.find(Set.of(QuarantineState.HELD), 1, SHOWN_REFUSED);
    return new Desk(
        releases(asked, ReleaseStep.SUSPENDED),
        first(causes),
        causes.size() - first(causes).size(),
        first(owed),
        owed.size() - first(owed).size(),
        releases(asked, ReleaseStep.PROPOSED),
        refused.total(),
        refused.items().stream().map(Desks::refused).toList());
  }

  private static <T> List<T> first(List<T> all) {
    return all.subList(0, Math.min(SHOWN, all.size()));
  }

  private static Desk.Refused refused(QuarantineRow row) {
    return new Desk.Refused(
        Addresses.ofEntry(row.entryId()).substring(Addresses.ROOT.length()),
        row.place(),
        row.receivedAt(),
        row.reason());
  }

  /** What lots are not fit for, gathered while they are gone through. */
  private static final class Reach {
    final Set<Subject> lots = new HashSet<>();
    double leftKg;
    double customersKg;
  }

  private List<Desk.Cause> causes(StandingQuery asked) {
    Map<Subject, Reach> reaches = new LinkedHashMap<>();
    for (StandingRow row : find(asked, Set.of(StandingState.NOT_FIT), Set.of(), false)) {
      seen.standing(row.subject())
          .ifPresent(
              standing ->
                  origins(standing)
                      .forEach(
                          origin -> add(reaches.computeIfAbsent(origin, one -> new Reach()), row)));
    }
    return reaches.entrySet().stream()
        .flatMap(reach -> cause(reach.getKey(), reach.getValue()).stream())
        .sorted(
            Comparator.comparingDouble(Desk.Cause::customersKg)
                .thenComparingDouble(Desk.Cause::leftKg)
                .thenComparing(Desk.Cause::changedAt)
                .reversed()
                .thenComparing(Desk.Cause::name))
        .toList();
  }

  private static Set<Subject> origins(LotStanding standing) {
    Set<Subject> origins =
        standing.getInherited().stream()
            .filter(trouble -> trouble.getWeight().equals("CONDEMNS"))
            .map(trouble -> Subject.parse(trouble.getOrigin()))
            .collect(Collectors.toSet());
    if (standing.getVerdicts().stream().anyMatch(Desks::isNotMet)) {
      origins.add(Subject.parse(standing.getSubject()));
    }
    return origins;
  }

  private void add(Reach reach, StandingRow row) {
    if (row.subject().kind() != Subject.Kind.LOT || !reach.lots.add(row.subject())) {
      return;
    }
    reach.leftKg += Math.max(0, row.heldKg() - row.givenOutKg());
    reach.customersKg +=
        seen.pedigree().edgesOutOf(row.subject()).stream()
            .filter(edge -> edge.child().kind() == Subject.Kind.ENTERPRISE)
            .mapToDouble(Edge::massKg)
            .sum();
  }

  private Optional<Desk.Cause> cause(Subject origin, Reach reach) {
    return seen.standing(origin)
        .map(
            standing -> {
              List<GateVerdict> wrong =
                  standing.getVerdicts().stream().filter(Desks::isNotMet).toList();
              return new Desk.Cause(
                  name(origin),
                  PageAddresses.of(origin),
                  wrong.stream()
                      .map(verdict -> trade().gate(verdict.getGate()))
                      .distinct()
                      .collect(Collectors.joining("; ")),
                  wrong.isEmpty() ? "" : wrong.get(0).getSentence(),
                  seen.row(origin).map(StandingRow::changedAt).orElse(Instant.EPOCH),
                  reach.lots.size(),
                  reach.leftKg,
                  reach.customersKg);
            });
  }

  private static boolean isNotMet(GateVerdict verdict) {
    return verdict.getState() == VerdictState.NOT_MET;
  }

  private List<Desk.Owed> owed(StandingQuery asked) {
    LocalDate today = LocalDate.now(framing.form().zone());
    List<Desk.Owed> owed = new ArrayList<>();
    for (StandingRow row : find(asked, Set.of(), Set.of(), true)) {
      seen.standing(row.subject())
          .ifPresent(
              standing ->
                  standing.getVerdicts().stream()
                      .filter(verdict -> verdict.getState() == VerdictState.OWED)
                      .forEach(verdict -> owed.add(owed(row.subject(), verdict, today))));
    }
    owed.sort(
        Comparator.comparing((Desk.Owed one) -> one.due().orElse(LocalDate.MAX))
            .thenComparing(Desk.Owed::name)
            .thenComparing(Desk.Owed::gate));
    return owed;
  }

  private Desk.Owed owed(Subject subject, GateVerdict verdict, LocalDate today) {
    DeskMessages texts = framing.texts(DeskMessages.class);
    boolean onField = subject.kind() == Subject.Kind.CROP && isOnField(verdict.getGate());
    Optional<FloweringDue> due =
        onField
            ? declared(subject)
                .flatMap(crop -> FloweringDue.of(Gate.valueOf(verdict.getGate()), crop))
            : Optional.empty();
    return new Desk.Owed(
        name(subject),
        PageAddresses.of(subject),
        trade().gate(verdict.getGate()),
        verdict.getOwed() == null ? verdict.getSentence() : verdict.getOwed(),
        due.map(FloweringDue::day),
        due.map(one -> one.words(today, framing.form(), texts))
            .orElse(onField ? texts.floweringUnknown() : texts.beforeRelease()),
        due.map(one -> one.isUrgent(today)).orElse(false));
  }

  private static boolean isOnField(String gate) {
    return Arrays.stream(Gate.values())
        .filter(known -> known.name().equals(gate))
        .anyMatch(FloweringDue::concerns);
  }

  private Optional<FieldCropDeclared> declared(Subject crop) {
    return answers.wholeDossier(crop).crop();
  }

  private List<Desk.Suspended> releases(StandingQuery asked, ReleaseStep step) {
    return find(asked, Set.of(), Set.of(step), false).stream()
        .limit(SHOWN)
        .flatMap(row -> seen.standing(row.subject()).stream())
        .map(
            standing -> {
              Subject lot = Subject.parse(standing.getSubject());
              return new Desk.Suspended(
                  lot.id(),
                  PageAddresses.of(lot),
                  Optional.ofNullable(standing.getRelease().getSince()),
                  Optional.ofNullable(standing.getRelease().getWhy()));
            })
        .toList();
  }

  private List<StandingRow> find(
      StandingQuery asked, Set<StandingState> states, Set<ReleaseStep> releases, boolean owing) {
    return seen.rows(
        new StandingQuery(
            Set.of(Subject.Kind.LOT, Subject.Kind.CROP),
            states,
            releases,
            asked.hybridId(),
            asked.seedId(),
            asked.category(),
            asked.cropYear(),
            asked.holder(),
            asked.rulebookId(),
            Optional.empty(),
            Optional.empty(),
            owing,
            asked.idPrefix(),
            StandingQuery.Order.WORST,
            1,
            MOST_STANDINGS));
  }

  private String name(Subject subject) {
    LotMessages texts = framing.texts(LotMessages.class);
    return subject.kind() == Subject.Kind.LOT ? texts.lot(subject.id()) : texts.crop(subject.id());
  }

  private Trade trade() {
    return Trade.in(framing.language());
  }
}
