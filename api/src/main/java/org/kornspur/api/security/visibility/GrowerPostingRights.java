package org.kornspur.api.security.visibility;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.api.kafka.ProcessorsClient;
import org.kornspur.api.problem.RightsProblem;
import org.kornspur.api.readmodel.StandingIndex;
import org.kornspur.api.security.limit.RecentClaims;
import org.kornspur.contract.FieldCropDeclared;
import org.kornspur.contract.PollenSourceSeen;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.intake.Problem;
import org.kornspur.processors.pedigree.Edge;

/**
 * What a multiplier may bring: facts of its own crops and lots. Seed is taken only out of lots that
 * are its own or were dispatched to it; else one grower could use up another's lot on paper.
 *
 * @param made whose the crops and lots are that facts made a moment ago; of one with a standing,
 *     that says whose it is
 */
record GrowerPostingRights(
    String enterpriseId,
    Visibility visibility,
    ProcessorsClient processors,
    StandingIndex standings,
    RecentClaims<Subject> made) {
  List<Problem> against(SpecificRecord fact) {
    List<Problem> problems = new ArrayList<>();
    if (fact instanceof FieldCropDeclared crop && !crop.getEnterpriseId().equals(enterpriseId)) {
      problems.add(
          Problem.of(
              "enterpriseId",
              crop.getEnterpriseId(),
              new RightsProblem.OtherEnterprise(enterpriseId)));
    }
    for (Subject crop : SeedMovements.workedOn(fact)) {
      if (!isOwn(crop)) {
        problems.add(Problem.of("cropId", crop.id(), new RightsProblem.NotOwnCrop(enterpriseId)));
      }
    }
    for (Subject lot : SeedMovements.takenFrom(fact)) {
      if (!isOwn(lot) && !wasDelivered(lot)) {
        problems.add(Problem.of("lotId", lot.id(), new RightsProblem.NotOwnLot(enterpriseId)));
      }
    }
    return problems;
  }

  /**
   * Ids that the fact would give and that are taken. To be told only of a fact that nothing else
   * speaks against: else one that can never go in would ask for ids and leave no trace. A new id is
   * the enterprise's from then on: of two growers who want it at one moment one gets it.
   */
  List<Problem> againstNewIds(SpecificRecord fact) {
    List<Problem> problems = new ArrayList<>();
    for (Subject begun : SeedMovements.made(fact)) {
      if (!isOwn(begun) && !(isNew(begun) && take(begun))) {
        problems.add(taken(begun));
      }
    }
    if (fact instanceof PollenSourceSeen seen) {
      Subject source = Subject.source(seen.getSourceId());
      if (!visibility.sees(source) && !processors.entries(source).isEmpty()) {
        problems.add(taken(source));
      }
    }
    return problems;
  }

  private boolean isOwn(Subject subject) {
    return visibility.sees(subject) || holderOf(subject).equals(Optional.of(enterpriseId));
  }

  private boolean take(Subject subject) {
    return made.take(subject, enterpriseId).map(enterpriseId::equals).orElse(true);
  }

  private Optional<String> holderOf(Subject subject) {
    return made.of(subject).filter(holder -> standings.row(subject).isEmpty());
  }

  private boolean isNew(Subject subject) {
    return holderOf(subject).isEmpty() && processors.entries(subject).isEmpty();
  }

  private boolean wasDelivered(Subject lot) {
    return processors.pedigree().edgesOutOf(lot).stream()
        .map(Edge::child)
        .anyMatch(Subject.enterprise(enterpriseId)::equals);
  }

  /** Ids are unique; that one is taken cannot be hidden from who wants to take it. */
  private static Problem taken(Subject subject) {
    return Problem.of(subject.kind().word() + "Id", subject.id(), new RightsProblem.IdTaken());
  }
}
