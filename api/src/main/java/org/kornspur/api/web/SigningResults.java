package org.kornspur.api.web;

import java.util.List;
import java.util.Optional;
import org.kornspur.api.command.act.ActSigning;
import org.kornspur.api.command.act.ReleaseSheetView;
import org.kornspur.api.command.act.ReleaseSigning.Outcome;
import org.kornspur.api.problem.ProblemKind;
import org.kornspur.api.problem.ProblemLanguage;
import org.kornspur.api.text.Addresses;
import org.kornspur.contract.ActKind;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.intake.Problem;
import org.kornspur.ingest.intake.ProblemWords;

/**
 * What became of lots that a person signed for at once, in words.
 *
 * @param kind what was to be signed
 * @param personId who signs
 */
record SigningResults(PageFrames pages, ActSigning acts, ActKind kind, String personId) {

  ReleasePageView.Done done(List<Outcome> outcomes) {
    return new ReleasePageView.Done(
        outcomes.stream()
            .filter(Outcome.Signed.class::isInstance)
            .map(Outcome.Signed.class::cast)
            .map(
                one ->
                    new ReleasePageView.SignedLot(
                        one.lot().id(), Addresses.pageOf(one.lot()), one.act().inDossier()))
            .toList(),
        outcomes.stream()
            .filter(Outcome.LeftOut.class::isInstance)
            .map(Outcome.LeftOut.class::cast)
            .map(this::leftOut)
            .toList());
  }

  private ReleasePageView.LeftOut leftOut(Outcome.LeftOut one) {
    boolean isChanged = one.why().kind() == ProblemKind.SEAL_CHANGED;
    return new ReleasePageView.LeftOut(
        one.lot().id(),
        Addresses.pageOf(one.lot()),
        isChanged
            ? pages.words().texts("release").of("changedSince", sinceThen(one.lot()))
            : one.why().detail(problemWords()),
        isChanged ? one.why().problems().stream().map(this::change).toList() : List.of());
  }

  /** A line of the release sheet, and whether it is new or no longer there. */
  private String change(Problem line) {
    return line.field() + " " + problemWords().value(line) + ": " + problemWords().limit(line);
  }

  /** What a lot has come to that is no longer what the person read. */
  private String sinceThen(Subject lot) {
    ReleaseSheetView now = acts.sheetFor(lot, personId);
    return whyNot(now).orElseGet(() -> now.standing().sentence());
  }

  /** Why it cannot be signed for this lot now; empty where it can. */
  Optional<String> whyNot(ReleaseSheetView sheet) {
    return sheet.acts().stream()
        .filter(act -> act.kind().equals(kind.name()))
        .flatMap(act -> Optional.ofNullable(act.why()).stream())
        .findFirst();
  }

  private ProblemWords problemWords() {
    return ProblemLanguage.words(pages.words().language());
  }
}
