package org.kornspur.api.query.advice;

import java.util.List;
import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.kornspur.api.http.JsonBody;
import org.kornspur.ingest.problem.Expected;
import org.kornspur.processors.advice.StatedValueAdvice;

/** Two values to be compared. */
@Schema(description = "Two values of one lot to be compared")
public record CompareRequest(
    @Schema(required = true) Kind kind,
    @Schema(
            required = true,
            description =
                "Stated value, or first test: percent; for OTHER_SEEDS the number that is allowed",
            examples = "90")
        Double stated,
    @Schema(
            required = true,
            description = "Later test, or second test: percent; for OTHER_SEEDS the number found",
            examples = "84")
        Double found,
    @Schema(description = "Seeds of the stated test; for TWO_GERMINATION_TESTS", examples = "400")
        Double statedSeeds,
    @Schema(
            description = "Seeds of the later test; for GERMINATION and TWO_GERMINATION_TESTS",
            examples = "400")
        Double foundSeeds) {
  private static final int MOST_SEEDS = 100_000;

  public enum Kind {
    /** Germination on a label against a later test. */
    GERMINATION,
    /** Analytical purity on a label against a later test. */
    PURITY,
    /** Other seeds by number against a later test. */
    OTHER_SEEDS,
    TWO_GERMINATION_TESTS
  }

  public List<StatedValueAdvice> compare() {
    JsonBody body = new JsonBody();
    body.required("kind", kind, JsonBody.oneOf(Kind.class));
    body.check();
    return switch (kind) {
      case GERMINATION -> {
        int label = body.whole("stated", stated, 0, 100);
        int test = body.whole("found", found, 0, 100);
        int seeds = body.whole("foundSeeds", foundSeeds, 1, MOST_SEEDS);
        body.check();
        yield StatedValueAdvice.germination(label, test, seeds);
      }
      case PURITY -> {
        body.required("stated", stated, new Expected.Decimal());
        body.required("found", found, new Expected.Decimal());
        body.check();
        yield StatedValueAdvice.purity(stated, found);
      }
      case OTHER_SEEDS -> {
        int most = body.whole("stated", stated, 0, MOST_SEEDS);
        int counted = body.whole("found", found, 0, MOST_SEEDS);
        body.check();
        yield StatedValueAdvice.otherSeeds(most, counted);
      }
      case TWO_GERMINATION_TESTS -> {
        int first = body.whole("stated", stated, 0, 100);
        int firstSeeds = body.whole("statedSeeds", statedSeeds, 1, MOST_SEEDS);
        int second = body.whole("found", found, 0, 100);
        int secondSeeds = body.whole("foundSeeds", foundSeeds, 1, MOST_SEEDS);
        body.check();
        yield StatedValueAdvice.twoTests(first, firstSeeds, second, secondSeeds);
      }
    };
  }
}
