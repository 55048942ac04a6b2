package org.kornspur.api.command.plan;

import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.kornspur.api.http.JsonBody;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.query.plan.PlanDefinition;
import org.kornspur.ingest.problem.Expected;

@Schema(description = "A plan, or a new version of one")
public record PlanRequest(
    @Schema(required = true, examples = "Three years of HYB-01") String name,
    @Schema(required = true, description = "Why it is made or changed") String reason,
    @Schema(description = "The version that was changed; needed for a plan that is there already")
        Integer basedOnVersion,
    @Schema(required = true) PlanDefinition question) {

  private static final int LONGEST_TEXT = 2_000;

  /**
   * Says all that is missing at once.
   *
   * @throws ApiProblem if anything is
   */
  void check() {
    JsonBody body = new JsonBody();
    body.required("name", name, new Expected.Text());
    body.required("reason", reason, new Expected.Text());
    if (body.required("question", question, new Expected.Elements()) != null) {
      question.check(body);
    }
    body.check();
  }

  /** A text as it is kept. */
  static String kept(String text) {
    String stripped = text.strip();
    return stripped.length() > LONGEST_TEXT ? stripped.substring(0, LONGEST_TEXT) : stripped;
  }
}
