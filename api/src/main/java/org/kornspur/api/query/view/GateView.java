package org.kornspur.api.query.view;

import java.util.List;
import java.util.Optional;
import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.kornspur.api.text.VerdictWords;
import org.kornspur.standing.GateVerdict;
import org.kornspur.standing.VerdictInterval;
import org.kornspur.standing.VerdictState;
import org.kornspur.standing.VerdictValue;

@Schema(description = "What one gate says")
public record GateView(
    @Schema(examples = "GERMINATION") String gate,
    @Schema(description = "Key that tells several verdicts of one gate apart; else empty")
        String aspect,
    @Schema(description = "The same in words") String about,
    VerdictState state,
    @Schema(
            nullable = true,
            description = "Value found, in unit; null where evidence is owed",
            examples = "93")
        Double value,
    @Schema(nullable = true, examples = "%") String unit,
    @Schema(
            nullable = true,
            description = "Room left to the limit, in unit; negative where broken",
            examples = "8")
        Double margin,
    @Schema(
            nullable = true,
            description = "What the value may truly be, given how much was counted")
        IntervalView interval,
    @Schema(nullable = true, description = "Null where no rulebook gives one") LimitView limit,
    @Schema(
            nullable = true,
            description = "What is to be brought, in words; null where nothing is owed")
        String owed,
    @Schema(description = "Facts that it rests on") List<String> factIds,
    @Schema(description = "All that it says, in words") String sentence,
    @Schema(description = "What is, then what is needed, in one line") String line,
    @Schema(description = "What was found, the most telling first") List<StatementView> findings,
    @Schema(description = "What is to be brought") List<StatementView> evidence,
    @Schema(description = "What to do, and what to beware of") List<StatementView> advice) {

  @Schema(description = "A two-sided confidence interval in the unit of the value")
  public record IntervalView(
      double lower, double upper, @Schema(examples = "0.95") double confidence) {

    static IntervalView of(VerdictInterval interval) {
      return new IntervalView(interval.getLower(), interval.getUpper(), interval.getConfidence());
    }
  }

  public static GateView of(GateVerdict verdict, VerdictWords words) {
    Optional<VerdictValue> measured = Optional.ofNullable(verdict.getMeasured());
    return new GateView(
        verdict.getGate(),
        verdict.getAspect(),
        words.about(verdict.getAbout(), verdict.getAspect()),
        verdict.getState(),
        measured.map(VerdictValue::getValue).orElse(null),
        measured.map(VerdictValue::getUnit).orElse(null),
        measured.map(VerdictValue::getMargin).orElse(null),
        measured.map(VerdictValue::getInterval).map(IntervalView::of).orElse(null),
        Optional.ofNullable(verdict.getLimit())
            .map(limit -> LimitView.of(limit, words))
            .orElse(null),
        verdict.getState() == VerdictState.OWED ? words.evidenceLine(verdict) : null,
        verdict.getFactIds(),
        words.whole(verdict),
        words.line(verdict),
        StatementView.of(VerdictWords.findings(verdict), words.words()),
        StatementView.of(VerdictWords.evidence(verdict), words.words()),
        StatementView.of(VerdictWords.advice(verdict), words.words()));
  }
}
