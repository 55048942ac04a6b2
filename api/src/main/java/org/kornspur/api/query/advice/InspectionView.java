package org.kornspur.api.query.advice;

import java.util.List;
import java.util.OptionalInt;
import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.kornspur.api.query.view.AsOf;
import org.kornspur.api.query.view.SubjectLink;
import org.kornspur.api.text.ReaderWords;
import org.kornspur.processors.advice.CountStatement;
import org.kornspur.processors.advice.InspectionAdvice;
import org.kornspur.processors.standards.Limit;
import org.kornspur.processors.standards.Quantity;
import org.kornspur.processors.statistics.MoreUnits;
import org.kornspur.processors.statistics.SamplingPlan;
import org.kornspur.processors.statistics.SequentialPlan;

@Schema(description = "When an inspector may stop counting. Advice, not a gate")
public record InspectionView(
    SubjectLink crop,
    String sentence,
    @Schema(description = "Producer's risk, percent: of refusing what is just at the limit")
        double alphaPercent,
    @Schema(description = "Consumer's risk, percent: of accepting what is so many times as bad")
        double betaPercent,
    @Schema(description = "How many times the limit is certainly too bad") double multiple,
    @Schema(description = "Source of the plan") String source,
    List<CountView> counts,
    AsOf asOf) {

  @Schema(description = "A count against one limit")
  public record CountView(
      Quantity quantity,
      String part,
      @Schema(description = "The limit in the words of its text") String limit,
      @Schema(description = "Where it stands, and whether that was read") String source,
      @Schema(description = "False where the limit could not be read in the text itself")
          boolean verified,
      @Schema(description = "What one unit is", examples = "female plant in receptive flower")
          String unit,
      @Schema(description = "Units counted so far") int unitsCounted,
      @Schema(description = "Bad units among them") int bad,
      @Schema(
              nullable = true,
              description = "Bad units, with exact interval; null before the first count")
          ShareView observed,
      @Schema(description = "Percent of bad units at the limit") double acceptablePercent,
      @Schema(description = "Percent of bad units that is certainly too bad")
          double rejectablePercent,
      SequentialPlan.Decision decision,
      String sentence,
      @Schema(nullable = true, description = "Null where these risks take too long a count")
          Sequential sequential,
      @Schema(
              nullable = true,
              description = "The smallest count of fixed size; null where there is none")
          Fixed fixed,
      @Schema(
              nullable = true,
              description = "Against the limit itself; null before the first count")
          More more,
      List<String> factIds) {

    public static CountView of(InspectionAdvice.Count count, ReaderWords words) {
      Limit limit = count.limit();
      return new CountView(
          limit.quantity(),
          words.plain(count.part()),
          words.limit(limit),
          words.source(limit),
          limit.verified(),
          words.plain(count.unit()),
          count.unitsCounted(),
          count.bad(),
          count
              .observed()
              .map(interval -> ShareView.of((double) count.bad() / count.unitsCounted(), interval))
              .orElse(null),
          ShareView.percent(count.acceptable()),
          ShareView.percent(count.rejectable()),
          count.decision(),
          words.plain(count.sentence()),
          count.plan().map(plan -> Sequential.of(plan, count.steps())).orElse(null),
          count.fixed().map(plan -> Fixed.of(plan, count)).orElse(null),
          count.more().map(More::of).orElse(null),
          count.factIds());
    }
  }

  /** The sequential plan. */
  @Schema(description = "Sequential plan; its risks are exact")
  public record Sequential(
      @Schema(description = "Units at which it ends at the latest") int mostUnits,
      @Schema(description = "Mean number of units counted where the crop is at the limit")
          double expectedUnitsAtLimit,
      @Schema(description = "Percent") double producersRiskPercent,
      @Schema(description = "Percent") double consumersRiskPercent,
      @Schema(description = "Acceptance and reject numbers, at the present count first")
          List<StepView> steps) {

    public static Sequential of(SequentialPlan plan, List<InspectionAdvice.Step> steps) {
      SequentialPlan.Performance atLimit = plan.at(plan.acceptable());
      return new Sequential(
          plan.mostUnits(),
          Math.round(atLimit.expectedUnits()),
          ShareView.percent(1 - atLimit.acceptance()),
          ShareView.percent(plan.consumersRisk()),
          steps.stream().map(StepView::of).toList());
    }
  }

  @Schema(description = "Acceptance and reject number after so many units")
  public record StepView(
      int units,
      @Schema(nullable = true, description = "Accept with at most so many bad; null where not yet")
          Integer acceptAtMost,
      @Schema(nullable = true, description = "Reject with at least so many bad; null where not yet")
          Integer rejectAtLeast) {

    public static StepView of(InspectionAdvice.Step step) {
      return new StepView(step.units(), orNull(step.acceptAtMost()), orNull(step.rejectAtLeast()));
    }
  }

  @Schema(description = "A count of fixed size")
  public record Fixed(
      int units,
      int acceptAtMost,
      @Schema(description = "Percent") double producersRiskPercent,
      @Schema(description = "Percent") double consumersRiskPercent) {

    public static Fixed of(SamplingPlan plan, InspectionAdvice.Count count) {
      return new Fixed(
          plan.examined(),
          plan.acceptanceNumber(),
          ShareView.percent(count.fixedProducersRisk().orElseThrow()),
          ShareView.percent(count.fixedConsumersRisk().orElseThrow()));
    }
  }

  @Schema(description = "What more counting would settle, against the limit itself")
  public record More(
      MoreUnits.State now,
      @Schema(
              nullable = true,
              description = "Further units that settle it if none is bad; null where settled")
          Integer unitsIfNoneBad,
      @Schema(
              nullable = true,
              description = "Further units that settle it at the present rate; null where none do")
          Integer unitsAtPresentRate) {

    public static More of(MoreUnits more) {
      return new More(more.now(), orNull(more.ifNoneBad()), orNull(more.atPresentRate()));
    }
  }

  public static InspectionView of(InspectionAdvice advice, ReaderWords words, AsOf asOf) {
    return new InspectionView(
        SubjectLink.of(advice.crop()),
        words.plain(advice.sentence()),
        ShareView.percent(advice.terms().alpha()),
        ShareView.percent(advice.terms().beta()),
        advice.terms().multiple(),
        words.plain(new CountStatement.Plans()),
        advice.counts().stream().map(count -> CountView.of(count, words)).toList(),
        asOf);
  }

  private static Integer orNull(OptionalInt number) {
    return number.isPresent() ? number.getAsInt() : null;
  }
}
