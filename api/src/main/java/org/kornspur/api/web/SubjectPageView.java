package org.kornspur.api.web;

import io.quarkus.qute.RawString;
import java.util.List;
import java.util.Optional;
import org.kornspur.api.query.view.ReleaseView;
import org.kornspur.api.query.view.StandingView;
import org.kornspur.api.text.Addresses;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.pedigree.Edge;
import org.kornspur.standing.ReleaseStep;
import org.kornspur.standing.StandingState;
import org.kornspur.standing.VerdictState;

/**
 * All that the page of one lot or crop shows.
 *
 * @param view its standing
 * @param href its page
 * @param name as in Lot L25-S05
 * @param why the gates that make the standing
 * @param reason the first reason for it, as HTML; empty where all is met
 * @param gates worst first
 * @param drawing empty where nothing came before and nothing went on
 * @param cut in words, how much of the pedigree is drawn; empty where all is
 * @param movements the pedigree as a table
 * @param incomplete in words, why the walks are not complete; empty where they are
 * @param refused input in quarantine that names it, newest first
 * @param recordHref where facts of it are recorded; empty where who asks may record none
 */
public record SubjectPageView(
    StandingView view,
    String href,
    String name,
    String why,
    Optional<RawString> reason,
    Optional<String> holder,
    List<GateLine> gates,
    List<RuleNoteLine> ruleNotes,
    List<InheritedLine> inherited,
    Optional<PedigreeDrawing> drawing,
    Optional<String> cut,
    List<MovementLine> movements,
    double dispatchedKg,
    List<CustomerLine> customers,
    Optional<String> incomplete,
    long superseded,
    List<FactLine> facts,
    List<QuarantinePage.Line> refused,
    String recordHref) {

  /** How far persons have released a lot; empty where nobody has done anything. */
  public Optional<ReleaseView> release() {
    return Optional.ofNullable(view.release())
        .filter(release -> release.step() != ReleaseStep.NONE);
  }

  /** Whether it may bear a label. */
  public boolean released() {
    return view.state() == StandingState.FIT
        && release().filter(release -> release.step() == ReleaseStep.RELEASED).isPresent();
  }

  /** What somebody should do about it now. */
  public enum Next {
    /** Bring the evidence that is owed. */
    BRING,
    RELEASE,
    SECOND_SIGNATURE,
    /** Seed of it that is not fit is at customers. */
    TELL_CUSTOMERS,
    /** Keep it in store; no seed of it leaves. */
    HOLD_BACK,
    /** Something is wrong in a crop that can still be mended, or its harvest is not to be used. */
    MEND,
    NOTHING
  }

  /** What somebody should do about it now. */
  public Next next() {
    boolean isLot = Subject.parse(view.subject()).kind() == Subject.Kind.LOT;
    ReleaseStep step = view.release() == null ? ReleaseStep.NONE : view.release().step();
    if (step == ReleaseStep.CONDEMNED || view.state() == StandingState.NOT_FIT) {
      return dispatchedKg > 0 ? Next.TELL_CUSTOMERS : isLot ? Next.HOLD_BACK : Next.MEND;
    }
    if (view.state() != StandingState.FIT) {
      return Next.BRING;
    }
    return switch (step) {
      case PROPOSED -> Next.SECOND_SIGNATURE;
      case NONE, SUSPENDED -> isLot && view.leftKg() > 0 ? Next.RELEASE : Next.NOTHING;
      case RELEASED, CONDEMNED, UNKNOWN -> Next.NOTHING;
    };
  }

  /** Gates that are not met or that evidence is owed for, worst first. */
  public List<GateLine> openGates() {
    return gates.stream().filter(gate -> gate.state() != VerdictState.MET).toList();
  }

  public List<GateLine> metGates() {
    return gates.stream().filter(gate -> gate.state() == VerdictState.MET).toList();
  }

  /** What is to be brought first, as HTML; empty where nothing is owed by itself. */
  public Optional<RawString> bring() {
    return gates.stream().flatMap(gate -> gate.bring().stream()).findFirst();
  }

  /** The state whose colours the step of the release has. */
  public String releaseTone() {
    return release()
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

  /** What the rulebook says beside its limits. */
  public record RuleNoteLine(Optional<String> gate, RawString finding) {}

  /** Trouble or an open question of an ancestor. */
  public record InheritedLine(
      String gate,
      boolean condemns,
      List<Stop> path,
      List<GateLine.FactLink> facts,
      List<RawString> findings) {}

  /** A crop or lot on a path; {@code href} is empty where there is no page. */
  public record Stop(String subject, String href) {
    static Stop of(Subject subject) {
      return new Stop(subject.id(), Addresses.pageOf(subject));
    }
  }

  /** Seed that moved, as a row of a table; {@code troubled} where trouble moved with it. */
  public record MovementLine(Edge edge, boolean troubled) {
    public Stop from() {
      return Stop.of(edge.parent());
    }

    public Stop to() {
      return Stop.of(edge.child());
    }
  }

  /** Seed that reached a customer. */
  public record CustomerLine(String customer, double massKg) {}
}
