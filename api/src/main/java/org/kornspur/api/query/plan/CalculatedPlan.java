package org.kornspur.api.query.plan;

import java.util.List;
import java.util.Optional;
import org.kornspur.contract.PlanVersion;
import org.kornspur.processors.plan.Allotment;
import org.kornspur.processors.plan.MultiplicationChain;
import org.kornspur.processors.plan.OwnYields;
import org.kornspur.processors.plan.PlanSimulation;
import org.kornspur.processors.plan.PlanTask;
import org.kornspur.processors.plan.Requirements;
import org.kornspur.processors.plan.SeedPlan;
import org.kornspur.processors.plan.Supply;

/**
 * A version of a plan with what follows from it by the standings of the moment.
 *
 * @param ownYields what the crops on record brought, where there are enough
 * @param difference to what it came to when its latest approved version was approved; empty where
 *     none was
 */
public record CalculatedPlan(
    PlanVersion version,
    PlanDefinition question,
    MultiplicationChain chain,
    PlanTask task,
    Supply supply,
    Requirements requirements,
    SeedPlan plan,
    List<Allotment> allotments,
    PlanSimulation simulation,
    List<OwnYields> ownYields,
    Optional<Approved> difference) {

  /** An approved version, and how the plan differs from it now. */
  public record Approved(PlanVersion version, PlanDifference difference) {}

  /** What it comes to now. */
  public PlanOutcome outcome() {
    return PlanOutcome.of(plan, task.lots());
  }
}
