package org.kornspur.processors.balance;

import java.util.ArrayList;
import java.util.List;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.contract.Admixture;
import org.kornspur.contract.Blend;
import org.kornspur.contract.Conditioning;
import org.kornspur.contract.Dispatch;
import org.kornspur.contract.Harvest;
import org.kornspur.contract.LotDeclared;
import org.kornspur.contract.LotMass;
import org.kornspur.contract.LotMerge;
import org.kornspur.contract.LotSplit;
import org.kornspur.contract.Sowing;
import org.kornspur.ingest.contract.FactType;

/**
 * Mass that a fact put into a lot or took out of it.
 *
 * @param lotId the lot
 * @param direction into or out of it
 * @param massKg kilograms
 * @param by type of the fact
 * @param factId the fact
 */
public record MassFlow(
    String lotId, Direction direction, double massKg, FactType by, String factId) {

  /** Into a lot or out of it. */
  public enum Direction {
    IN,
    OUT
  }

  /** The flows of one fact; empty for facts that move no seed. */
  public static List<MassFlow> of(SpecificRecord fact) {
    List<MassFlow> flows = new ArrayList<>();
    if (fact instanceof LotDeclared lot) {
      flows.add(flow(fact, lot.getLotId(), Direction.IN, lot.getMassKg()));
    } else if (fact instanceof Sowing sowing) {
      addAll(flows, fact, sowing.getSown(), Direction.OUT);
    } else if (fact instanceof Harvest harvest) {
      flows.add(flow(fact, harvest.getLotId(), Direction.IN, harvest.getMassKg()));
    } else if (fact instanceof Conditioning conditioning) {
      addAll(flows, fact, conditioning.getInputs(), Direction.OUT);
      addAll(flows, fact, conditioning.getOutputs(), Direction.IN);
    } else if (fact instanceof LotSplit split) {
      flows.add(flow(fact, split.getFromLotId(), Direction.OUT, total(split.getParts())));
      addAll(flows, fact, split.getParts(), Direction.IN);
    } else if (fact instanceof LotMerge merge) {
      addAll(flows, fact, merge.getInputs(), Direction.OUT);
      flows.add(flow(fact, merge.getIntoLotId(), Direction.IN, total(merge.getInputs())));
    } else if (fact instanceof Blend blend) {
      addAll(flows, fact, blend.getFemales(), Direction.OUT);
      addAll(flows, fact, blend.getPollinators(), Direction.OUT);
      flows.add(
          flow(
              fact,
              blend.getBlendLotId(),
              Direction.IN,
              total(blend.getFemales()) + total(blend.getPollinators())));
    } else if (fact instanceof Admixture admixture) {
      addAll(flows, fact, admixture.getHybridLots(), Direction.OUT);
      addAll(flows, fact, admixture.getOpenPollinatedLots(), Direction.OUT);
      flows.add(
          flow(
              fact,
              admixture.getIntoLotId(),
              Direction.IN,
              total(admixture.getHybridLots()) + total(admixture.getOpenPollinatedLots())));
    } else if (fact instanceof Dispatch dispatch) {
      flows.add(flow(fact, dispatch.getLotId(), Direction.OUT, dispatch.getMassKg()));
    }
    return flows;
  }

  private static void addAll(
      List<MassFlow> flows, SpecificRecord fact, List<LotMass> parts, Direction direction) {
    parts.forEach(part -> flows.add(flow(fact, part.getLotId(), direction, part.getMassKg())));
  }

  private static double total(List<LotMass> parts) {
    return parts.stream().mapToDouble(LotMass::getMassKg).sum();
  }

  private static MassFlow flow(
      SpecificRecord fact, String lotId, Direction direction, double massKg) {
    return new MassFlow(lotId, direction, massKg, FactType.of(fact), FactType.idOf(fact));
  }
}
