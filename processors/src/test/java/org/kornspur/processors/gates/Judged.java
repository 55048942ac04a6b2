package org.kornspur.processors.gates;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.kornspur.ingest.statement.Coded;
import org.kornspur.ingest.statement.Statement;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.finding.Advice;
import org.kornspur.processors.finding.Evidence;
import org.kornspur.processors.fixture.CheckTable;
import org.kornspur.processors.fixture.Verdicts;
import org.kornspur.processors.standards.Limit;
import org.kornspur.processors.standards.Rulebook;
import org.kornspur.processors.standards.Rulebooks;
import org.kornspur.processors.verdict.Verdict;

/**
 * What one gate says of a dossier under a bundled rulebook, in words that a table of cases can
 * hold.
 */
record Judged(List<Verdict> verdicts) {

  static Judged by(String rulebookId, GateRule gate, Dossier dossier) {
    return by(Rulebooks.bundled().find(rulebookId).orElseThrow(), gate, dossier);
  }

  static Judged by(Rulebook rulebook, GateRule gate, Dossier dossier) {
    return new Judged(gate.judge(dossier, rulebook));
  }

  /** MET, NOT_MET or OWED for an aspect, NONE where nothing was judged. */
  String state(String aspect) {
    return verdicts.stream()
        .filter(verdict -> verdict.aspect().equals(aspect))
        .map(Judged::word)
        .findFirst()
        .orElse("NONE");
  }

  /** The worst of all aspects: NOT_MET, then OWED, then MET; NONE where nothing was judged. */
  String worst() {
    List<String> words = verdicts.stream().map(Judged::word).toList();
    for (String worst : List.of("NOT_MET", "OWED", "MET")) {
      if (words.contains(worst)) {
        return worst;
      }
    }
    return "NONE";
  }

  Verdict only() {
    if (verdicts.size() != 1) {
      throw new AssertionError("Expected one verdict, got " + verdicts);
    }
    return verdicts.get(0);
  }

  /** Fails unless each was found, by itself or within another finding. */
  Judged found(Statement... statements) {
    assertThat(Verdicts.withNested(findings())).contains(Verdicts.coded(statements));
    return this;
  }

  /** Fails unless this evidence is asked for. */
  Judged asksFor(Evidence... evidence) {
    assertThat(Verdicts.evidence(verdicts)).contains(Verdicts.coded(evidence));
    return this;
  }

  /** Fails unless all this is to be done, or to be beware of. */
  Judged advises(Advice... advice) {
    assertThat(verdicts.stream().flatMap(verdict -> verdict.advice().stream()))
        .contains(Verdicts.coded(advice));
    return this;
  }

  /** What was found, without what is said within it. */
  List<Coded> findings() {
    return verdicts.stream().flatMap(verdict -> verdict.findings().stream()).toList();
  }

  /** The limit of the only verdict. */
  Limit limit() {
    return only().limit().orElseThrow();
  }

  /** Writes one row of the table of checks: what is published, what we say, and where it stands. */
  Judged row(String check, String published, String ours) {
    String source =
        verdicts.stream()
            .flatMap(verdict -> verdict.limit().stream())
            .map(Limit::citation)
            .findFirst()
            .orElse("the breeder's scheme and the facts themselves");
    CheckTable.gates().row(check, published, ours, source);
    return this;
  }

  private static String word(Verdict verdict) {
    if (verdict instanceof Verdict.Met) {
      return "MET";
    }
    return verdict instanceof Verdict.NotMet ? "NOT_MET" : "OWED";
  }
}
