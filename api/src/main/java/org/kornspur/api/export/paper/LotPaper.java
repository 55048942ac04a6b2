package org.kornspur.api.export.paper;

import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import jakarta.enterprise.context.RequestScoped;
import jakarta.inject.Inject;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.kornspur.api.command.act.ActView;
import org.kornspur.api.command.act.VisibleActs;
import org.kornspur.api.export.paper.LotPaperLimits.Some;
import org.kornspur.api.kafka.ProcessorsClient;
import org.kornspur.api.query.QueryService;
import org.kornspur.api.query.RequestWords;
import org.kornspur.api.query.StandingHeadlines;
import org.kornspur.api.query.VisibleData;
import org.kornspur.api.query.proof.CheckpointCover;
import org.kornspur.api.query.proof.LogCoverage;
import org.kornspur.api.query.recall.RecallDrills;
import org.kornspur.api.query.recall.RecallView;
import org.kornspur.api.query.recall.TraceWords;
import org.kornspur.api.query.view.GateView;
import org.kornspur.api.query.view.InheritedView;
import org.kornspur.api.query.view.StandingView;
import org.kornspur.api.security.CurrentCaller;
import org.kornspur.api.security.Permission;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.dossier.Entry;
import org.kornspur.standing.VerdictState;

/**
 * Prints a lot on two pages: its state, what is not met or owed before what is met, then release
 * and signatures, masses and customers. All else stands in the appendix.
 */
@RequestScoped
public class LotPaper {
  static final int PAGES = 2;

  @Inject RequestWords requestWords;
  @Inject QueryService queries;
  @Inject VisibleData data;
  @Inject ProcessorsClient processors;
  @Inject RecallDrills drills;
  @Inject VisibleActs acts;
  @Inject CheckpointCover covers;
  @Inject CurrentCaller caller;
  @Inject StandingHeadlines headlines;

  /**
   * Something that is not met or owed.
   *
   * @param result the state in words
   */
  public record Problem(String gate, String about, String result, String text) {}

  /** An act in a few words; what a refused one lacks is empty. */
  public record Act(
      String kind,
      boolean refused,
      Optional<String> name,
      boolean forgotten,
      String person,
      Instant at,
      String meaning,
      String reason,
      boolean verifies) {}

  /**
   * What the two pages show.
   *
   * @param verdict the standing in one sentence
   * @param why why its release is suspended or condemned; empty where it is neither
   * @param appendix name of the file with all else
   * @param cover how far checkpoints cover its facts; empty for who may not read the log
   */
  public record Content(
      Subject subject,
      StandingView standing,
      String verdict,
      Some<Problem> problems,
      Some<GateView> met,
      Optional<String> why,
      Some<Act> acts,
      RecallView drill,
      Some<RecallView.CustomerView> customers,
      List<String> cautions,
      int facts,
      Optional<LogCoverage> cover,
      String appendix) {}

  @CheckedTemplate(basePath = "paper")
  static class Templates {
    static native TemplateInstance lot(PaperFrame page, Content sheet, TraceWords words);
  }

  /**
   * The two pages as PDF.
   *
   * @param appendix name of the file with all else
   * @throws org.kornspur.api.problem.ApiProblem if nothing is known of the lot, or the caller does
   *     not see it
   */
  public byte[] print(Subject lot, String appendix) throws IOException {
    RecallView drill = drills.drill(lot, Map.of());
    StandingView standing = queries.view(lot);
    List<ActView> signed = newestFirst(acts.of(lot));
    List<String> facts =
        processors.entries(lot).stream()
            .filter(data::sees)
            .map(Entry::header)
            .map(header -> header.getFactId())
            .toList();
    Optional<LogCoverage> cover =
        caller.get().may(Permission.READ_LOG) ? Optional.of(covers.cover(facts)) : Optional.empty();
    byte[] pdf = {};
    for (LotPaperLimits room : LotPaperLimits.values()) {
      Content sheet =
          new Content(
              lot,
              standing,
              room.cut(headlines.sentence(standing)),
              room.problems(problems(standing, room)),
              room.met(with(standing, VerdictState.MET)),
              Optional.ofNullable(standing.release().why()).map(room::cut),
              room.acts(signed.stream().map(act -> act(act, room)).toList()),
              drill,
              room.customers(largestFirst(drill)),
              standing.cautions().stream().map(caution -> room.cut(caution.sentence())).toList(),
              facts.size(),
              cover,
              appendix);
      ByteArrayOutputStream made = new ByteArrayOutputStream();
      int pages =
          PdfRenderer.print(
              requestWords.render(
                  Templates.lot(
                      PaperFrame.of(requestWords, standing.asOf()),
                      sheet,
                      TraceWords.of(requestWords))),
              List.of(),
              made);
      pdf = made.toByteArray();
      if (pages <= PAGES) {
        break;
      }
    }
    return pdf;
  }

  private List<Problem> problems(StandingView standing, LotPaperLimits room) {
    return Stream.of(
            with(standing, VerdictState.NOT_MET).stream().map(gate -> problem(gate, room)),
            standing.inherited().stream()
                .sorted(Comparator.comparing(InheritedView::weight))
                .map(trouble -> problem(trouble, room)),
            with(standing, VerdictState.OWED).stream().map(gate -> problem(gate, room)),
            with(standing, VerdictState.UNKNOWN).stream().map(gate -> problem(gate, room)))
        .flatMap(part -> part)
        .toList();
  }

  private static List<GateView> with(StandingView standing, VerdictState state) {
    return standing.gates().stream().filter(gate -> gate.state() == state).toList();
  }

  private Problem problem(GateView gate, LotPaperLimits room) {
    return new Problem(
        requestWords.terms().gate(gate.gate()),
        room.cut(gate.about()),
        requestWords.terms().verdict(gate.state()),
        room.cut(gate.line()));
  }

  private Problem problem(InheritedView trouble, LotPaperLimits room) {
    return new Problem(
        requestWords.terms().gate(trouble.gate()),
        Subject.parse(trouble.origin().subject()).id(),
        requestWords.texts("paper").of("inheritedResult", trouble.weight()),
        room.cut(trouble.sentence()));
  }

  private static List<ActView> newestFirst(List<ActView> acts) {
    List<ActView> turned = new ArrayList<>(acts);
    Collections.reverse(turned);
    return turned;
  }

  private Act act(ActView act, LotPaperLimits room) {
    return new Act(
        requestWords.terms().act(act.kind()),
        act.refused(),
        Optional.ofNullable(act.printedName()),
        act.nameForgotten(),
        act.signerId(),
        act.signedAt(),
        act.meaning(),
        room.cut(act.refused() ? act.refusal() : act.reason()),
        act.signatureVerifies());
  }

  private static List<RecallView.CustomerView> largestFirst(RecallView drill) {
    return drill.customers().stream()
        .sorted(Comparator.comparingDouble(RecallView.CustomerView::massKg).reversed())
        .toList();
  }
}
