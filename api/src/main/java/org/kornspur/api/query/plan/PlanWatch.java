package org.kornspur.api.query.plan;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Clock;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.stream.Stream;
import org.jboss.logging.Logger;
import org.kornspur.api.readmodel.ReadModel;
import org.kornspur.api.readmodel.StandingIndexRow;
import org.kornspur.contract.PlanVersion;
import org.kornspur.processors.plan.MultiplicationChain;
import org.kornspur.processors.plan.PlanRefusedException;
import org.kornspur.processors.plan.PlanSolver;
import org.kornspur.processors.plan.PlanTask;
import org.kornspur.processors.plan.Remedy;
import org.kornspur.processors.plan.SeedPlan;
import org.kornspur.processors.plan.Supply;

/**
 * Of every approved plan, the demands of which less is met by the standings of the moment than when
 * it was approved. A plan is solved again only when what it counts with changed. It asks for
 * nobody: who is told of it must be one who may read plans.
 */
@ApplicationScoped
public class PlanWatch {
  private static final Logger LOG = Logger.getLogger(PlanWatch.class);
  private static final double LEAST_KG = 1;

  @Inject ReadModel readModel;
  @Inject PlanService plans;
  @Inject DeclaredHybrids hybrids;
  private final Map<String, Solved> latest = new ConcurrentHashMap<>();
  private final Clock clock = Clock.systemDefaultZone();

  /**
   * A plan as it was solved last.
   *
   * @param revision of the standings that it was looked at with last
   */
  private record Solved(
      PlanVersion version,
      long revision,
      MultiplicationChain chain,
      PlanTask task,
      SeedPlan plan) {}

  /**
   * A demand of which less is met than was approved.
   *
   * @param remedies what can still be done
   */
  public record LessMet(
      PlanVersion plan,
      PlanTask.Wanted wanted,
      double metThenKg,
      double metNowKg,
      List<Remedy> remedies) {

    /** Names plan and demand, as in {@code plan-1/HYB-04/2027}. */
    public String key() {
      return plan.getPlanId() + "/" + wanted.hybridId() + "/" + wanted.year();
    }
  }

  /** All of them now. */
  public List<LessMet> lessMet() {
    return readModel.plans().approved().stream().flatMap(this::lessMet).toList();
  }

  private Stream<LessMet> lessMet(PlanVersion version) {
    try {
      PlanOutcome then = plans.outcome(version);
      Solved now = solved(version);
      return now.plan().demands().stream()
          .flatMap(
              met ->
                  then.metKg(met.wanted().hybridId(), met.wanted().year()).stream()
                      .filter(metThen -> metThen - met.soldKg() >= LEAST_KG)
                      .map(
                          metThen ->
                              new LessMet(
                                  version,
                                  met.wanted(),
                                  metThen,
                                  met.soldKg(),
                                  Remedy.of(now.task(), met, LocalDate.now(clock)))));
    } catch (PlanRefusedException changedSince) {
      LOG.debugf("Plan %s can be planned no more: %s", version.getPlanId(), changedSince.refusal());
      return Stream.empty();
    }
  }

  /** Looks at all standings only where one of them, or a hybrid of the plan, has changed. */
  private Solved solved(PlanVersion version) {
    PlanDefinition asked = plans.definition(version);
    MultiplicationChain chain = hybrids.chain(asked);
    long revision = readModel.standings().revision();
    return latest.compute(
        version.getPlanId(),
        (id, before) -> {
          boolean isOfPlan = before != null && before.version().equals(version);
          if (isOfPlan && before.revision() == revision && before.chain().equals(chain)) {
            return before;
          }
          PlanTask task = task(asked, chain);
          return new Solved(
              version,
              revision,
              chain,
              task,
              isOfPlan && before.task().equals(task) ? before.plan() : PlanSolver.solve(task));
        });
  }

  private PlanTask task(PlanDefinition asked, MultiplicationChain chain) {
    List<StandingIndexRow> rows = readModel.standings().matching(row -> row.material().isPresent());
    Supply supply = PlanService.supply(rows, chain, asked);
    return PlanTask.of(asked.question(), chain, supply.lots(), PlanService.lastGrown(rows));
  }
}
