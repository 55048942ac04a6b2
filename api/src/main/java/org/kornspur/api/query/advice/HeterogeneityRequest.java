package org.kornspur.api.query.advice;

import java.util.List;
import java.util.Objects;
import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.kornspur.ingest.problem.Expected;
import org.kornspur.processors.advice.HeterogeneityAdvice;
import org.kornspur.processors.statistics.Heterogeneity;

@Schema(description = "Results of containers of one lot, sampled one by one")
public record HeterogeneityRequest(
    @Schema(required = true) Heterogeneity.Attribute attribute,
    @Schema(
            required = true,
            description = "One for each container: percent, or number of other seeds",
            examples = "[99.4, 99.9, 99.6]")
        List<Double> results) {

  public HeterogeneityAdvice test() {
    AdviceBody body = new AdviceBody();
    body.required("attribute", attribute, AdviceBody.oneOf(Heterogeneity.Attribute.class));
    boolean whole = results != null && results.stream().allMatch(Objects::nonNull);
    body.required("results", whole ? results : null, new Expected.Elements());
    body.check();
    return AdviceBody.asked(() -> HeterogeneityAdvice.of(attribute, results));
  }
}
