package org.kornspur.api.command.plan;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Clock;
import java.time.temporal.ChronoUnit;
import java.util.UUID;
import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.kornspur.api.http.JsonBody;
import org.kornspur.api.kafka.ProcessorsClient;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.problem.PlanDetail;
import org.kornspur.api.problem.ProblemKind;
import org.kornspur.api.query.plan.CalculatedPlan;
import org.kornspur.api.query.plan.PlanFieldService;
import org.kornspur.api.query.plan.PlanService;
import org.kornspur.api.readmodel.ReadModel;
import org.kornspur.api.security.Caller;
import org.kornspur.contract.PlanApproval;
import org.kornspur.contract.PlanVersion;
import org.kornspur.ingest.problem.Expected;

/**
 * Keeps plans: each change is a version of its own, with its author, time and reason. They lie in a
 * compacted topic and not among the facts: facts are judged, chained and kept for ever, and a plan
 * must have no part in any of that.
 */
@ApplicationScoped
public class PlanWriter {
  @Inject ProcessorsClient processors;
  @Inject ReadModel readModel;
  @Inject PlanService plans;
  @Inject PlanFieldService fields;
  @Inject ObjectMapper json;
  private final Clock clock = Clock.systemUTC();

  @Schema(description = "That you approve a version of a plan")
  public record ApprovalRequest(
      @Schema(required = true, description = "The version that you looked at") Integer version,
      @Schema(required = true, description = "Why") String reason) {}

  /**
   * Saves a new plan.
   *
   * @throws ApiProblem if it cannot be planned
   */
  public CalculatedPlan create(Caller author, PlanRequest request) {
    request.check();
    return save(author, "plan-" + UUID.randomUUID().toString().substring(0, 8), 1, request);
  }

  /**
   * Saves a new version of a plan.
   *
   * @throws ApiProblem if there is no such plan, if somebody changed it in between, or it cannot be
   *     planned
   */
  public synchronized CalculatedPlan change(Caller author, String planId, PlanRequest request) {
    request.check();
    int latest = requireLatest(planId, request.basedOnVersion(), "basedOnVersion");
    return save(author, planId, latest + 1, request);
  }

  /**
   * Approves the latest version, with what it comes to now.
   *
   * @throws ApiProblem if there is no such plan, if somebody changed it in between, or it can be
   *     planned no more
   */
  public synchronized CalculatedPlan approve(
      Caller author, String planId, ApprovalRequest request) {
    JsonBody body = new JsonBody();
    body.required("reason", request.reason(), new Expected.Text());
    body.check();
    requireLatest(planId, request.version(), "version");
    CalculatedPlan calculated = plans.calculate(planId);
    PlanVersion approved =
        PlanVersion.newBuilder(calculated.version())
            .setApproval(
                new PlanApproval(
                    author.personId(),
                    clock.instant().truncatedTo(ChronoUnit.MILLIS),
                    PlanRequest.kept(request.reason()),
                    written(calculated.outcome())))
            .build();
    keep(approved);
    return plans.calculate(approved);
  }

  private int requireLatest(String planId, Integer given, String field) {
    int latest = plans.version(planId).getVersion();
    JsonBody body = new JsonBody();
    body.required(field, given, new Expected.WholeNumber());
    body.check();
    if (given != latest) {
      throw new ApiProblem(ProblemKind.PLAN_CHANGED, new PlanDetail.Changed(latest, given));
    }
    return latest;
  }

  /** Only what can be planned is kept. */
  private CalculatedPlan save(Caller author, String planId, int version, PlanRequest request) {
    PlanVersion saved =
        PlanVersion.newBuilder()
            .setPlanId(planId)
            .setVersion(version)
            .setName(PlanRequest.kept(request.name()))
            .setSavedBy(author.personId())
            .setSavedAt(clock.instant().truncatedTo(ChronoUnit.MILLIS))
            .setReason(PlanRequest.kept(request.reason()))
            .setQuestion(written(request.question()))
            .build();
    CalculatedPlan calculated = plans.calculate(saved);
    fields.require(calculated);
    keep(saved);
    return calculated;
  }

  /** Also here at once, so that who saved it finds it before the topic is read. */
  private void keep(PlanVersion plan) {
    processors.keep(plan);
    readModel.plans().put(plan);
  }

  private String written(Object value) {
    try {
      return json.writeValueAsString(value);
    } catch (JsonProcessingException impossible) {
      throw new IllegalStateException(impossible);
    }
  }
}
