package org.kornspur.api.view;

import java.util.List;
import java.util.Optional;
import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.kornspur.standing.GateVerdict;
import org.kornspur.standing.VerdictInterval;
import org.kornspur.standing.VerdictState;
import org.kornspur.standing.VerdictValue;

/** What one gate says. */
@Schema(description = "What one gate says")
public record GateView(
    @Schema(examples = "GERMINATION") String gate,
    @Schema(description = "Tells several verdicts of one gate apart; else empty") String aspect,
    VerdictState state,
    @Schema(description = "Value found, in unit; null where evidence is owed", examples = "93")
        Double value,
    @Schema(examples = "%") String unit,
    @Schema(description = "Room left to the limit, in unit; negative where broken", examples = "8")
        Double margin,
    @Schema(description = "What the value may truly be, given how much was counted")
        IntervalView interval,
    @Schema(description = "Null where no rulebook gives one") LimitView limit,
    @Schema(description = "What is to be brought; null where nothing is owed") String owed,
    @Schema(description = "Facts that it rests on") List<String> factIds,
    String sentence) {

  /** A two-sided confidence interval. */
  @Schema(description = "A two-sided confidence interval in the unit of the value")
  public record IntervalView(
      double lower, double upper, @Schema(examples = "0.95") double confidence) {

    static IntervalView of(VerdictInterval interval) {
      return new IntervalView(interval.getLower(), interval.getUpper(), interval.getConfidence());
    }
  }

  static GateView of(GateVerdict verdict) {
    Optional<VerdictValue> measured = Optional.ofNullable(verdict.getMeasured());
    return new GateView(
        verdict.getGate(),
        verdict.getAspect(),
        verdict.getState(),
        measured.map(VerdictValue::getValue).orElse(null),
        measured.map(VerdictValue::getUnit).orElse(null),
        measured.map(VerdictValue::getMargin).orElse(null),
        measured.map(VerdictValue::getInterval).map(IntervalView::of).orElse(null),
        Optional.ofNullable(verdict.getLimit()).map(LimitView::of).orElse(null),
        verdict.getOwed(),
        verdict.getFactIds(),
        verdict.getSentence());
  }
}
