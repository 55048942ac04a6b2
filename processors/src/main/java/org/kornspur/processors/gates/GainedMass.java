package org.kornspur.processors.gates;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.kornspur.contract.Conditioning;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.balance.ConditioningAccount;
import org.kornspur.processors.balance.MassFlow;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.Report.Gained;
import org.kornspur.processors.pedigree.Edge;

/**
 * What seed weighs more than what went in, over all its movements: each work may be off by the
 * tolerance of scales, and a treatment adds a dressing, but many of them together make no seed.
 * What a lot lost makes up for nothing that it gained. Common practice, no source.
 */
public final class GainedMass {
  private GainedMass() {}

  /** What came in with the seed of a lot, and by the works that it came in by. */
  static Gained of(Dossier lot) {
    List<Edge> in = lot.edgesIn();
    double allKg = in.stream().mapToDouble(Edge::massKg).sum();
    double weighed = 0;
    double dressed = 0;
    Map<Subject, Gained> ofParents = new HashMap<>();
    lot.believedParents()
        .forEach(
            parent ->
                parent.gained().ifPresent(had -> ofParents.putIfAbsent(parent.parent(), had)));
    Map<String, Gained> byWorks = new HashMap<>();
    lot.facts(Conditioning.class).forEach(work -> byWorks.put(FactType.idOf(work), by(work)));
    for (Edge edge : in) {
      double share = edge.massKg() / allKg;
      Optional<Gained> before = Optional.ofNullable(ofParents.get(edge.parent()));
      Optional<Gained> here = Optional.ofNullable(byWorks.get(edge.factId()));
      weighed += share * sum(before.map(Gained::weighedPercent), here.map(Gained::weighedPercent));
      dressed += share * sum(before.map(Gained::dressedPercent), here.map(Gained::dressedPercent));
    }
    return new Gained(weighed, dressed);
  }

  /** What a lot tells those that are made of it: what it gave out beyond what it held, too. */
  public static Optional<Gained> toldBy(Dossier lot) {
    Gained came = of(lot);
    Gained told = new Gained(came.weighedPercent() + beyondHeldPercent(lot), came.dressedPercent());
    return Optional.of(told)
        .filter(gained -> gained.weighedPercent() + gained.dressedPercent() > 0);
  }

  private static double sum(Optional<Double> before, Optional<Double> here) {
    return before.orElse(0.0) + here.orElse(0.0);
  }

  private static Gained by(Conditioning work) {
    ConditioningAccount account = ConditioningAccount.of(work);
    double inKg = account.inputKg();
    double beyondKg = account.outputKg() + account.screeningsKg() + account.dryingLossKg() - inKg;
    return new Gained(
        100 * Math.max(0, beyondKg - account.dressingKg()) / inKg,
        100 * account.dressingKg() / inKg);
  }

  /** How much more went out of a lot than came in, percent; 0 where less did. */
  static double beyondHeldPercent(Dossier lot) {
    double inKg = lot.totalKg(MassFlow.Direction.IN);
    return inKg > 0 ? 100 * Math.max(0, lot.totalKg(MassFlow.Direction.OUT) - inKg) / inKg : 0;
  }
}
