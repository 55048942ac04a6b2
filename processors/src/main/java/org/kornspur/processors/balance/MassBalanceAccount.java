package org.kornspur.processors.balance;

import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.contract.Conditioning;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Movement;
import org.kornspur.processors.balance.MassBalance.Tolerance;
import org.kornspur.processors.balance.MassFlow.Direction;

/**
 * Adds up the mass flows of facts for some lots, for a recall drill. What a lot is judged by is the
 * sum of its own dossier: {@code gates.MassBalanceGate}.
 */
public final class MassBalanceAccount {
  private final Set<String> lotIds;
  private final List<MassFlow> ours = new ArrayList<>();
  private final List<MassFlow> others = new ArrayList<>();
  private final List<ConditioningAccount> conditionings = new ArrayList<>();
  private double enteredKg;

  private MassBalanceAccount(Set<String> lotIds) {
    this.lotIds = lotIds;
  }

  /**
   * The balance.
   *
   * @param lotIds the lots
   * @param facts every counting fact that names any of them, each once
   * @param countedStockKg what was counted in store, by lot
   */
  public static MassBalance balance(
      Set<String> lotIds,
      Collection<SpecificRecord> facts,
      Map<String, Double> countedStockKg,
      Tolerance tolerance) {
    MassBalanceAccount account = new MassBalanceAccount(lotIds);
    facts.forEach(account::enter);
    return account.close(countedStockKg, tolerance);
  }

  private void enter(SpecificRecord fact) {
    List<MassFlow> flows = MassFlow.of(fact);
    if (flows.stream().noneMatch(flow -> lotIds.contains(flow.lotId()))) {
      return;
    }
    Map<Boolean, List<MassFlow>> parted =
        flows.stream().collect(Collectors.partitioningBy(flow -> lotIds.contains(flow.lotId())));
    ours.addAll(parted.get(true));
    if (isLotToLot(flows.get(0))
        && parted.get(true).stream().allMatch(flow -> flow.direction() == Direction.IN)) {
      // what else the same movement made of other lots' seed is none of these lots' business
      enteredKg += kg(parted.get(true), flow -> true);
      return;
    }
    others.addAll(parted.get(false));
    if (fact instanceof Conditioning conditioning) {
      conditionings.add(ConditioningAccount.of(conditioning));
    }
  }

  private MassBalance close(Map<String, Double> countedStockKg, Tolerance tolerance) {
    Map<String, List<MassFlow>> byLot =
        ours.stream().collect(Collectors.groupingBy(MassFlow::lotId));
    List<LotAccount> accounts =
        lotIds.stream()
            .sorted()
            .map(lotId -> account(lotId, byLot.getOrDefault(lotId, List.of()), countedStockKg))
            .toList();
    return new MassBalance(
        accounts,
        List.copyOf(conditionings),
        kg(ours, flow -> in(flow, FactType.LOT_DECLARED)),
        kg(ours, flow -> in(flow, FactType.HARVEST)),
        enteredKg + kg(others, flow -> flow.direction() == Direction.OUT && isLotToLot(flow)),
        kg(ours, flow -> out(flow, FactType.DISPATCH)),
        kg(ours, flow -> out(flow, FactType.SOWING)),
        kg(others, flow -> flow.direction() == Direction.IN && isLotToLot(flow)),
        conditionings.stream()
            .mapToDouble(account -> account.lossKg() - account.dressingKg())
            .sum(),
        accounts.stream().mapToDouble(LotAccount::stockKg).sum(),
        tolerance);
  }

  private static LotAccount account(
      String lotId, List<MassFlow> flows, Map<String, Double> countedStockKg) {
    Double counted = countedStockKg.get(lotId);
    return new LotAccount(
        lotId,
        kg(flows, flow -> in(flow, FactType.LOT_DECLARED)),
        kg(flows, flow -> in(flow, FactType.HARVEST)),
        kg(flows, flow -> flow.direction() == Direction.IN && isLotToLot(flow)),
        kg(flows, flow -> out(flow, FactType.DISPATCH)),
        kg(flows, flow -> out(flow, FactType.SOWING)),
        kg(flows, flow -> flow.direction() == Direction.OUT && isLotToLot(flow)),
        counted == null ? OptionalDouble.empty() : OptionalDouble.of(counted));
  }

  private static boolean in(MassFlow flow, FactType by) {
    return flow.direction() == Direction.IN && flow.by() == by;
  }

  private static boolean out(MassFlow flow, FactType by) {
    return flow.direction() == Direction.OUT && flow.by() == by;
  }

  private static boolean isLotToLot(MassFlow flow) {
    return flow.by().movement().filter(Movement::isFromLotToLot).isPresent();
  }

  private static double kg(List<MassFlow> flows, Predicate<MassFlow> which) {
    return flows.stream().filter(which).mapToDouble(MassFlow::massKg).sum();
  }
}
