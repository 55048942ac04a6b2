package org.kornspur.api.query.advice;

import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.kornspur.processors.statistics.Interval;

@Schema(description = "A share with its interval, percent")
public record ShareView(
    @Schema(description = "Estimate, percent", examples = "82.4") double percent,
    @Schema(description = "Lower end of the interval, percent") double lowerPercent,
    @Schema(description = "Upper end of the interval, percent") double upperPercent,
    @Schema(description = "Confidence of the interval, percent", examples = "95")
        double confidencePercent) {

  public static ShareView of(double share, Interval interval) {
    return new ShareView(
        percent(share),
        percent(interval.lower()),
        percent(interval.upper()),
        percent(interval.confidence()));
  }

  /** Percent to four decimals: beyond that lies only arithmetic. */
  public static double percent(double share) {
    return Math.round(share * 1e6) / 1e4;
  }
}
