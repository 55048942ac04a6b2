package org.kornspur.api.web.plan;

import jakarta.enterprise.context.RequestScoped;
import jakarta.inject.Inject;
import java.io.IOException;
import java.util.List;
import java.util.Optional;
import org.kornspur.api.command.plan.DemandTable;
import org.kornspur.api.command.plan.PlanRequest;
import org.kornspur.api.query.RequestWords;
import org.kornspur.api.query.plan.CalculatedPlan;
import org.kornspur.api.query.plan.PlanDefinition;
import org.kornspur.api.security.login.MultipartForm;

/** Makes the request for a plan of a table that somebody sent; all that is no demand stays. */
@RequestScoped
class DemandUpload {
  @Inject RequestWords words;

  /**
   * The request.
   *
   * @param before the plan that is changed; empty for a new one
   * @param firstYear of a new plan; earlier where the table wants seed of an earlier harvest
   * @throws org.kornspur.api.problem.ApiProblem if the table cannot be read
   */
  PlanRequest request(MultipartForm form, Optional<CalculatedPlan> before, int firstYear)
      throws IOException {
    Optional<MultipartForm.SentFile> file = form.file("file");
    List<PlanDefinition.Wanted> demands =
        DemandTable.read(
            file.map(MultipartForm.SentFile::name).orElse(""),
            file.map(MultipartForm.SentFile::content).orElse(new byte[0]),
            words.language());
    PlanDefinition question =
        before
            .map(plan -> plan.question().withDemands(demands))
            .orElseGet(() -> PlanDefinition.of(demands, firstYear));
    return new PlanRequest(
        before.map(plan -> plan.version().getName()).or(() -> form.text("name")).orElse(""),
        form.text("reason").orElse(""),
        form.text("basedOnVersion").flatMap(PlanPage::whole).orElse(null),
        question);
  }
}
