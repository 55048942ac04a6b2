package org.kornspur.api.web;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.kornspur.api.query.RequestWords;
import org.kornspur.api.query.VisibleData;
import org.kornspur.api.query.view.Caution;
import org.kornspur.api.query.view.GateView;
import org.kornspur.api.query.view.LimitView;
import org.kornspur.api.query.view.ReleaseView;
import org.kornspur.api.query.view.StandingView;
import org.kornspur.api.query.view.SubjectLink;
import org.kornspur.api.text.PageTexts;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.standing.StandingState;
import org.kornspur.standing.VerdictState;

/** What a person should know of a fit lot before releasing it, where it is unlike the others. */
record ReleaseCautions(RequestWords words, VisibleData data) {

  /**
   * A value is close to its limit within this part of the room between the limit and the best that
   * can be. Common practice, no source.
   */
  private static final double CLOSE = 0.1;

  /** So that a value on the border is told, as 98.2 where 98 is asked for. */
  private static final double ROUNDING = 1e-9;

  private static final String PERCENT = "%";
  private static final String SHARE_OF_PLANTS = "plants/plant";

  /** Each in a sentence; empty where there is nothing to tell. */
  List<String> of(StandingView lot) {
    List<String> told = new ArrayList<>();
    ofRelease(lot.release()).ifPresent(told::add);
    Optional.ofNullable(lot.release().downgradedFrom())
        .ifPresent(from -> told.add(texts().of("downgraded", words.terms().category(from))));
    lot.cautions().stream()
        .filter(caution -> caution.about() == Caution.About.NOT_RELEASED)
        .map(Caution::sentence)
        .forEach(told::add);
    lot.parents().stream().flatMap(parent -> ofParent(parent).stream()).forEach(told::add);
    lot.gates().stream().filter(ReleaseCautions::isClose).map(this::close).forEach(told::add);
    notVerified(lot).ifPresent(told::add);
    return told;
  }

  private Optional<String> ofRelease(ReleaseView release) {
    return switch (release.step()) {
      case SUSPENDED ->
          Optional.of(
              release.why() == null
                  ? texts().of("wasSuspended")
                  : texts().of("wasSuspendedFor", release.why()));
      case PROPOSED ->
          Optional.of(
              texts()
                  .of(
                      "signedOnce",
                      release.signatures().stream()
                          .map(ReleaseView.SignedView::signerId)
                          .collect(Collectors.joining(", "))));
      case NONE, RELEASED, CONDEMNED, UNKNOWN -> Optional.empty();
    };
  }

  private Optional<String> ofParent(SubjectLink parent) {
    Subject subject = Subject.parse(parent.subject());
    return data.row(subject)
        .filter(row -> row.state() != StandingState.FIT)
        .map(
            row ->
                texts()
                    .of(
                        "parentNotFit",
                        words.words().named(subject),
                        words.terms().state(row.state())));
  }

  static boolean isClose(GateView gate) {
    LimitView limit = gate.limit();
    if (gate.state() != VerdictState.MET
        || limit == null
        || gate.margin() == null
        || !limit.unit().equals(gate.unit())) {
      return false;
    }
    double room = room(limit);
    return room > 0 && gate.margin() <= CLOSE * room + ROUNDING;
  }

  /**
   * From the limit to the best that can be; 0 where nobody strives for more than is asked, such as
   * the size of a sample.
   */
  private static double room(LimitView limit) {
    if (limit.sense().equals("AT_MOST")) {
      return limit.value();
    }
    return switch (limit.unit()) {
      case PERCENT -> 100 - limit.value();
      case SHARE_OF_PLANTS -> 1 - limit.value();
      default -> 0;
    };
  }

  private String close(GateView gate) {
    return texts()
        .of(
            "closeToLimit",
            gate.about().isEmpty()
                ? words.terms().gate(gate.gate())
                : words.terms().gate(gate.gate()) + " (" + gate.about() + ")",
            words.form().measure(gate.value(), gate.unit()),
            gate.limit().wording());
  }

  /** Limits of the lot's own rulebook; those of common practice have no text to verify them in. */
  private Optional<String> notVerified(StandingView lot) {
    Stream<String> gates =
        lot.gates().stream()
            .filter(gate -> gate.limit() != null && !gate.limit().verified())
            .filter(
                gate ->
                    lot.material() != null
                        && gate.limit().rulebookId().equals(lot.material().rulebookId()))
            .map(gate -> words.terms().gate(gate.gate()))
            .distinct();
    return Optional.of(gates.collect(Collectors.joining("; ")))
        .filter(named -> !named.isEmpty())
        .map(named -> texts().of("notVerified", named));
  }

  private PageTexts texts() {
    return words.texts("release");
  }
}
