package org.kornspur.api.readmodel;

import java.util.List;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import org.kornspur.contract.PlanVersion;

/** Every version of every plan of the years ahead. */
public final class PlanIndex {
  private final SortedMap<String, SortedMap<Integer, PlanVersion>> plans = new TreeMap<>();

  public synchronized void put(PlanVersion plan) {
    plans.computeIfAbsent(plan.getPlanId(), id -> new TreeMap<>()).put(plan.getVersion(), plan);
  }

  synchronized void clear() {
    plans.clear();
  }

  /** The latest version of each plan, by id. */
  public synchronized List<PlanVersion> latest() {
    return plans.values().stream().map(versions -> versions.get(versions.lastKey())).toList();
  }

  /** The versions of a plan, the first one first; none where there is no such plan. */
  public synchronized List<PlanVersion> versions(String planId) {
    return List.copyOf(plans.getOrDefault(planId, new TreeMap<>()).values());
  }

  /** The latest approved version of a plan. */
  public Optional<PlanVersion> approved(String planId) {
    return versions(planId).stream()
        .filter(version -> version.getApproval() != null)
        .reduce((earlier, later) -> later);
  }

  /** The latest approved version of each plan that has one. */
  public List<PlanVersion> approved() {
    return latest().stream().flatMap(plan -> approved(plan.getPlanId()).stream()).toList();
  }

  public Optional<PlanVersion> latest(String planId) {
    List<PlanVersion> versions = versions(planId);
    return versions.isEmpty() ? Optional.empty() : Optional.of(versions.get(versions.size() - 1));
  }
}
