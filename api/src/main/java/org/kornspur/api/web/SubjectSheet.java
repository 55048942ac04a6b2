package org.kornspur.api.web;

import io.quarkus.qute.RawString;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.kornspur.api.query.view.Caution;
import org.kornspur.api.query.view.MaterialView;
import org.kornspur.api.query.view.ReleaseView;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.standing.StandingState;

/**
 * All that the page of one lot or crop shows.
 *
 * @param href its page
 * @param name as in Lot L25-S05
 * @param kind lot or crop
 * @param sentence the standing in one sentence
 * @param reason the first reason for it, as HTML; empty where all is met
 * @param release how far persons have released a lot; empty where nobody has done anything
 * @param gates worst first
 * @param drawing empty where nothing came before and nothing went on
 * @param cut in words, how much of the pedigree is drawn; empty where all is
 * @param movements the pedigree as a table
 * @param complete in words, whether the walks are complete
 */
public record SubjectSheet(
    String id,
    String href,
    String name,
    String kind,
    StandingState state,
    String sentence,
    Optional<RawString> reason,
    Optional<ReleaseView> release,
    Optional<MaterialView> material,
    Optional<String> rulebook,
    Optional<String> holder,
    double heldKg,
    double givenOutKg,
    double leftKg,
    Instant changedAt,
    List<CautionLine> cautions,
    List<GateLine> gates,
    List<RuleNoteLine> ruleNotes,
    List<InheritedLine> inherited,
    Optional<PedigreeDrawing> drawing,
    Optional<String> cut,
    List<MovementLine> movements,
    double dispatchedKg,
    List<CustomerLine> customers,
    String complete,
    long counting,
    long superseded,
    List<FactLine> facts) {

  /** The state whose colours the step of the release has. */
  public String releaseTone() {
    return release
        .map(
            step ->
                switch (step.step()) {
                  case RELEASED -> StandingState.FIT;
                  case SUSPENDED, CONDEMNED -> StandingState.NOT_FIT;
                  case PROPOSED, NONE, UNKNOWN -> StandingState.EVIDENCE_OWED;
                })
        .map(Enum::name)
        .orElse("");
  }

  /** What to bear in mind: what it is about, and the sentence. */
  public record CautionLine(Caution.About about, String title, String sentence) {}

  /** What the rulebook says beside its limits. */
  public record RuleNoteLine(Optional<String> gate, RawString finding) {}

  /** Trouble or an open question of an ancestor. */
  public record InheritedLine(
      String gate,
      boolean condemns,
      Stop origin,
      List<Stop> path,
      List<GateLine.FactLink> facts,
      List<RawString> findings) {}

  /** A crop or lot on a path; {@code href} is empty where there is no page. */
  public record Stop(String subject, String href) {
    static Stop of(Subject subject) {
      return new Stop(subject.toString(), PageAddresses.of(subject));
    }
  }

  /** Seed that moved, as a row of a table. */
  public record MovementLine(
      Stop from, Stop to, double massKg, String by, Instant happenedAt, boolean troubled) {}

  /** Seed that reached a customer. */
  public record CustomerLine(String customer, double massKg) {}
}
