package org.kornspur.api.query.advice;

import java.util.List;
import java.util.Objects;
import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.kornspur.api.http.JsonBody;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.text.ReaderWords;
import org.kornspur.ingest.problem.Expected;
import org.kornspur.processors.advice.AdviceRefusal;
import org.kornspur.processors.advice.BlendUniformity;
import org.kornspur.processors.advice.ContainerAttribute;
import org.kornspur.processors.advice.HeterogeneityAdvice;
import org.kornspur.processors.statistics.Heterogeneity;

@Schema(description = "Results of containers of one lot, sampled one by one")
public record HeterogeneityRequest(
    @Schema(required = true) ContainerAttribute attribute,
    @Schema(
            required = true,
            description =
                "One for each container: percent, number of other seeds, or pollinator kernels",
            examples = "[99.4, 99.9, 99.6]")
        List<Double> results,
    @Schema(description = "Kernels told apart in each container; only for BLEND_SHARE")
        List<Double> examined) {

  public HeterogeneityView test(ReaderWords words) {
    JsonBody body = new JsonBody();
    body.required("attribute", attribute, JsonBody.oneOf(ContainerAttribute.class));
    body.required("results", whole(results), new Expected.Elements());
    if (attribute == ContainerAttribute.BLEND_SHARE) {
      body.required("examined", whole(examined), new Expected.Elements());
    }
    body.check();
    return AdviceRefusals.asProblems(
        () ->
            attribute
                .tabulated()
                .map(tested -> HeterogeneityView.of(attribute, byRules(tested), words))
                .orElseGet(
                    () -> HeterogeneityView.of(BlendUniformity.of(results, examined), words)));
  }

  private HeterogeneityAdvice byRules(Heterogeneity.Attribute tested) {
    if (examined != null) {
      throw ApiProblem.refused(new AdviceRefusal.OnlyForBlendShare());
    }
    return HeterogeneityAdvice.of(tested, results);
  }

  private static List<Double> whole(List<Double> numbers) {
    return numbers != null && numbers.stream().allMatch(Objects::nonNull) ? numbers : null;
  }
}
