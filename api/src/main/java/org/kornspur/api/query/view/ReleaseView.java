package org.kornspur.api.query.view;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.kornspur.api.readmodel.ReceiptTimes;
import org.kornspur.api.text.VerdictWords;
import org.kornspur.standing.ActSigned;
import org.kornspur.standing.LotRelease;
import org.kornspur.standing.ReleaseStep;
import org.kornspur.standing.RulesChange;
import org.kornspur.standing.VerdictChange;

@Schema(description = "How far persons have released a lot, and what took a release back")
public record ReleaseView(
    ReleaseStep step,
    @Schema(
            nullable = true,
            description =
                "When that step was reached, by the clock of the log where it has one; null where"
                    + " it is not known")
        Instant since,
    @Schema(
            description =
                "Signatures that the step rests on; of a suspended release those that had released"
                    + " it")
        List<SignedView> signatures,
    @Schema(description = "Persons who must sign before it is released", examples = "1")
        int signaturesNeeded,
    @Schema(
            nullable = true,
            description = "Why it is suspended or condemned; null where it is neither")
        String why,
    @Schema(description = "Facts that suspended it by themselves") List<String> causes,
    @Schema(description = "Verdicts that changed since it was released") List<ChangedView> changes,
    @Schema(
            nullable = true,
            description = "Category that it was made for, where a person put it into a lower one")
        String downgradedFrom,
    @Schema(description = "Mass that left for customers while it was not released")
        double dispatchedUnreleasedKg,
    @Schema(description = "Mass that was sown or mixed while it was not released")
        double usedUnreleasedKg,
    @Schema(description = "Verdicts that suspended it because the rules changed, and no fact did")
        List<RulesChangeView> rulesChanges) {

  @Schema(description = "A signature; the history of acts has the printed name")
  public record SignedView(
      String actId, String kind, String signerId, String meaning, Instant signedAt, String seal) {

    static SignedView of(ActSigned act) {
      return new SignedView(
          act.getActId(),
          act.getKind(),
          act.getSignerId(),
          act.getMeaning(),
          act.getSignedAt(),
          act.getSeal());
    }
  }

  @Schema(description = "A verdict that changed since the lot was released")
  public record ChangedView(
      String gate,
      String aspect,
      @Schema(
              nullable = true,
              description = "The ancestor that it comes from; null for an own verdict")
          String inheritedFrom,
      @Schema(enumeration = {"MET", "NOT_MET", "OWED", "NONE"}) String before,
      @Schema(enumeration = {"MET", "NOT_MET", "OWED"}) String after,
      List<String> factIds,
      String sentence) {

    static ChangedView of(VerdictChange change, VerdictWords words) {
      return new ChangedView(
          change.getGate(),
          change.getAspect(),
          change.getInheritedFrom(),
          change.getBefore(),
          change.getAfter(),
          change.getFactIds(),
          words.whole(VerdictWords.findings(change)));
    }
  }

  @Schema(description = "A limit with its unit")
  public record LimitThenView(
      @Schema(enumeration = {"AT_LEAST", "AT_MOST"}) String sense, double value, String unit) {}

  @Schema(description = "A verdict that changed with the rules since the lot was released")
  public record RulesChangeView(
      String gate,
      String aspect,
      @Schema(enumeration = {"MET", "NOT_MET", "OWED", "NONE"}) String before,
      @Schema(enumeration = {"NOT_MET", "OWED"}) String after,
      @Schema(nullable = true, description = "Null where the release sealed none")
          LimitThenView oldLimit,
      @Schema(nullable = true, description = "Null where the gate has none now")
          LimitThenView newLimit) {

    static RulesChangeView of(RulesChange change) {
      return new RulesChangeView(
          change.getGate(),
          change.getAspect(),
          change.getBefore(),
          change.getAfter(),
          Optional.ofNullable(change.getOldLimit())
              .map(old -> new LimitThenView(old.getSense(), old.getValue(), old.getUnit()))
              .orElse(null),
          Optional.ofNullable(change.getNewLimit())
              .map(now -> new LimitThenView(now.getSense(), now.getValue(), now.getUnit()))
              .orElse(null));
    }
  }

  static ReleaseView of(LotRelease release, ReceiptTimes receipts, VerdictWords words) {
    if (release == null) {
      return new ReleaseView(
          ReleaseStep.NONE, null, List.of(), 1, null, List.of(), List.of(), null, 0, 0, List.of());
    }
    return new ReleaseView(
        release.getStep(),
        receipts.since(release).orElse(null),
        release.getSignatures().stream().map(SignedView::of).toList(),
        release.getSignaturesNeeded(),
        words.why(release),
        release.getCauses(),
        release.getChanges().stream().map(change -> ChangedView.of(change, words)).toList(),
        release.getDowngradedFrom(),
        release.getDispatchedUnreleasedKg(),
        release.getUsedUnreleasedKg(),
        release.getRulesChanges().stream().map(RulesChangeView::of).toList());
  }
}
