package org.kornspur.api.query.plan;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.Collections;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Supplier;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.problem.PlanDetail;
import org.kornspur.api.query.VisibleData;
import org.kornspur.api.readmodel.ReadModel;
import org.kornspur.api.readmodel.StandingIndexRow;
import org.kornspur.api.security.limit.LruMap;
import org.kornspur.contract.Category;
import org.kornspur.contract.HybridDeclared;
import org.kornspur.contract.PlanVersion;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.problem.Given;
import org.kornspur.processors.dossier.Material;
import org.kornspur.processors.plan.Allotment;
import org.kornspur.processors.plan.MultiplicationChain;
import org.kornspur.processors.plan.PlanRefusedException;
import org.kornspur.processors.plan.PlanSimulation;
import org.kornspur.processors.plan.PlanSolver;
import org.kornspur.processors.plan.PlanTask;
import org.kornspur.processors.plan.Requirements;
import org.kornspur.processors.plan.SeedPlan;
import org.kornspur.processors.plan.Supply;
import org.kornspur.processors.verdict.Fitness;
import org.kornspur.standing.ReleaseStep;
import org.kornspur.standing.SeedMaterial;

/** Calculates plans from the standings of the moment, at each request anew. */
@ApplicationScoped
public class PlanService {
  /** Plans that stand side by side at most. */
  public static final int MOST_COMPARED = 6;

  private static final int MOST_READ = 100;
  private static final int RUNS = 1_000;
  private static final long SEED = 20_261_129;

  @Inject VisibleData data;
  @Inject ReadModel readModel;
  @Inject ObjectMapper json;
  @Inject YieldHistory yields;

  /** By the stored text, for approved plans are looked at again and again. */
  private final Map<String, PlanDefinition> definitions =
      Collections.synchronizedMap(new LruMap<>(MOST_READ));

  /** The latest version of each plan. */
  public List<PlanVersion> latest() {
    return readModel.plans().latest();
  }

  /**
   * The latest version of a plan, with what follows from it.
   *
   * @throws ApiProblem if there is no such plan, or it can be planned no more
   */
  public CalculatedPlan calculate(String planId) {
    return calculate(version(planId));
  }

  /**
   * The latest version of a plan.
   *
   * @throws ApiProblem if there is none
   */
  public PlanVersion version(String planId) {
    return readModel
        .plans()
        .latest(planId)
        .orElseThrow(() -> ApiProblem.notFound(new PlanDetail.NoPlan(Given.text(planId, false))));
  }

  /**
   * Plans side by side.
   *
   * @param named from two to {@link #MOST_COMPARED}, each an id, or id and version as in {@code
   *     plan-1@3}
   * @throws ApiProblem if one is not there, or they are too few or too many
   */
  public PlanComparison compare(List<String> named) {
    List<String> once = named.stream().filter(one -> !one.isBlank()).distinct().toList();
    if (once.size() < 2 || once.size() > MOST_COMPARED) {
      throw ApiProblem.refused(new PlanDetail.ToCompare(once.size(), 2, MOST_COMPARED));
    }
    return PlanComparison.of(once.stream().map(this::named).map(this::calculate).toList());
  }

  private PlanVersion named(String plan) {
    int at = plan.lastIndexOf('@');
    return at < 0
        ? version(plan)
        : readModel.plans().versions(plan.substring(0, at)).stream()
            .filter(one -> String.valueOf(one.getVersion()).equals(plan.substring(at + 1)))
            .findFirst()
            .orElseThrow(() -> ApiProblem.notFound(new PlanDetail.NoPlan(Given.text(plan, false))));
  }

  /**
   * How the seed of one hybrid goes through the years of a plan.
   *
   * @param hybridId the first one of the plan where it is empty
   * @return empty for a plan without demand
   * @throws ApiProblem if the plan has no such hybrid
   */
  public Optional<SeedFlow> flow(CalculatedPlan plan, Optional<String> hybridId) {
    List<String> hybrids = plan.question().hybridIds().toList();
    hybridId
        .filter(id -> !hybrids.contains(id))
        .ifPresent(
            id -> {
              throw data.unknown(Subject.hybrid(id));
            });
    return hybridId.or(() -> hybrids.stream().findFirst()).map(id -> SeedFlow.of(plan, id));
  }

  /**
   * What follows from a version.
   *
   * @throws ApiProblem if it cannot be planned
   */
  public CalculatedPlan calculate(PlanVersion version) {
    PlanDefinition asked = definition(version);
    return planned(
        () -> {
          MultiplicationChain chain = chain(asked);
          List<StandingIndexRow> rows = data.matching(row -> row.material().isPresent());
          Supply supply = supply(rows, chain, asked);
          PlanTask task = PlanTask.of(asked.question(), chain, supply.lots(), lastGrown(rows));
          SeedPlan plan = PlanSolver.solve(task);
          return new CalculatedPlan(
              version,
              asked,
              chain,
              task,
              supply,
              Requirements.of(task),
              plan,
              Allotment.of(task, plan),
              PlanSimulation.of(task, plan, RUNS, SEED),
              yields.of(rows, chain),
              difference(version, plan, task, supply));
        });
  }

  /** Has a domain's refusal become a problem document with its words. */
  private static <T> T planned(Supplier<T> plan) {
    try {
      return plan.get();
    } catch (PlanRefusedException refused) {
      throw ApiProblem.refused(refused.refusal());
    }
  }

  private Optional<CalculatedPlan.Approved> difference(
      PlanVersion version, SeedPlan plan, PlanTask task, Supply supply) {
    return readModel
        .plans()
        .approved(version.getPlanId())
        .map(
            approved ->
                new CalculatedPlan.Approved(
                    approved,
                    PlanDifference.of(
                        outcome(approved), PlanOutcome.of(plan, task.lots()), supply)));
  }

  private MultiplicationChain chain(PlanDefinition asked) {
    return MultiplicationChain.of(asked.hybridIds().map(this::hybrid).toList());
  }

  private HybridDeclared hybrid(String hybridId) {
    return data.dossier(Subject.hybrid(hybridId))
        .latest(HybridDeclared.class)
        .orElseThrow(() -> data.unknown(Subject.hybrid(hybridId)));
  }

  static Supply supply(
      List<StandingIndexRow> rows, MultiplicationChain chain, PlanDefinition asked) {
    List<Supply.LotInStore> lots =
        rows.stream()
            .filter(row -> row.subject().kind() == Subject.Kind.LOT)
            .map(PlanService::lot)
            .toList();
    Set<String> ids = chain.ids();
    return Supply.of(
        lots.stream()
            .filter(lot -> lot.material().map(Material::seedId).filter(ids::contains).isPresent())
            .toList(),
        chain,
        asked.planInputs(),
        Supply.record(lots),
        Set.copyOf(asked.leftOutLots()));
  }

  private static Supply.LotInStore lot(StandingIndexRow row) {
    return new Supply.LotInStore(
        row.subject().id(),
        row.material().flatMap(PlanService::material),
        switch (row.state()) {
          case FIT -> Optional.of(Fitness.FIT);
          case NOT_FIT -> Optional.of(Fitness.NOT_FIT);
          case EVIDENCE_OWED -> Optional.of(Fitness.EVIDENCE_OWED);
          case UNKNOWN -> Optional.empty();
        },
        row.release() == ReleaseStep.RELEASED,
        row.rawHarvest(),
        row.leftKg(),
        row.owed(),
        row.notMet(),
        row.holder());
  }

  /** Empty for a kind or category that this version does not know. */
  private static Optional<Material> material(SeedMaterial stored) {
    try {
      return Optional.of(
          new Material(
              stored.getHybridId(),
              stored.getSeedId(),
              Material.Kind.valueOf(stored.getKind()),
              Category.valueOf(stored.getCategory()),
              stored.getCropYear(),
              stored.getRulebookId()));
    } catch (IllegalArgumentException unknown) {
      return Optional.empty();
    }
  }

  /** The latest year of harvest of each seed of which a crop was declared. */
  static Map<String, Integer> lastGrown(List<StandingIndexRow> rows) {
    Map<String, Integer> last = new HashMap<>();
    rows.stream()
        .filter(row -> row.subject().kind() == Subject.Kind.CROP)
        .map(row -> row.material().orElseThrow())
        .forEach(seed -> last.merge(seed.getSeedId(), seed.getCropYear(), Math::max));
    return last;
  }

  /** What an approved version came to when it was approved. */
  PlanOutcome outcome(PlanVersion approved) {
    return read(approved.getApproval().getOutcome(), PlanOutcome.class);
  }

  /** The definition of a version as it was stored. */
  public PlanDefinition definition(PlanVersion version) {
    return definitions.computeIfAbsent(
        version.getQuestion(), stored -> read(stored, PlanDefinition.class));
  }

  private <T> T read(String stored, Class<T> type) {
    try {
      return json.readValue(stored, type);
    } catch (JsonProcessingException damaged) {
      throw new IllegalStateException("A stored plan cannot be read", damaged);
    }
  }
}
