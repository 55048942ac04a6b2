package org.kornspur.api.query;

import jakarta.enterprise.context.RequestScoped;
import jakarta.inject.Inject;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.kornspur.api.query.view.InheritedView;
import org.kornspur.api.query.view.StandingView;
import org.kornspur.api.text.PageTexts;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.dossier.InheritedFinding;
import org.kornspur.standing.VerdictState;

/**
 * What stands over a page or paper of a crop or lot: its name, and its standing in one sentence
 * that names all gates not met or owed, for the caller. For the first of them with its figures see
 * {@link org.kornspur.api.text.FirstReasonWords}.
 */
@RequestScoped
public class StandingHeadlines {
  @Inject RequestWords words;

  /** What a crop or lot is called, as in Lot L25-S05. */
  public String name(Subject subject) {
    return subject.kind() == Subject.Kind.LOT
        ? texts().of("lot", subject.id())
        : texts().of("crop", subject.id());
  }

  /** A standing in one sentence of the caller. */
  public String sentence(StandingView view) {
    String name = name(Subject.parse(view.subject()));
    PageTexts texts = texts();
    return switch (view.state()) {
      case FIT -> texts.of("fit", name, words.form().count(view.gates().size()));
      case NOT_FIT -> texts.of("notFit", name, why(view));
      case EVIDENCE_OWED -> texts.of("owed", name, why(view));
      case UNKNOWN -> texts.of("unknown", name);
    };
  }

  /** The gates that make a standing, for who sees its state beside them. */
  public String why(StandingView view) {
    return switch (view.state()) {
      case FIT -> texts().of("allMet", words.form().count(view.gates().size()));
      case NOT_FIT -> gates(view, VerdictState.NOT_MET, InheritedFinding.Weight.CONDEMNS);
      case EVIDENCE_OWED -> gates(view, VerdictState.OWED, InheritedFinding.Weight.OWED);
      case UNKNOWN -> "";
    };
  }

  private String gates(StandingView view, VerdictState state, InheritedFinding.Weight weight) {
    Stream<String> own =
        view.gates().stream()
            .filter(gate -> gate.state() == state)
            .map(gate -> words.terms().gate(gate.gate()));
    Stream<String> inherited =
        view.inherited().stream()
            .filter(trouble -> trouble.weight() == weight)
            .map(this::inheritedGate);
    return Stream.concat(own, inherited).distinct().collect(Collectors.joining("; "));
  }

  /** A gate that an ancestor does not meet, with the ancestor. */
  public String inheritedGate(InheritedView trouble) {
    return texts()
        .of(
            "inheritedGate",
            words.terms().gate(trouble.gate()),
            Subject.parse(trouble.origin().subject()).id());
  }

  private PageTexts texts() {
    return words.texts("headlines");
  }
}
