package org.kornspur.api.query.plan;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.api.query.VisibleData;
import org.kornspur.api.readmodel.StandingIndexRow;
import org.kornspur.contract.Harvest;
import org.kornspur.contract.Sowing;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.plan.Generation;
import org.kornspur.processors.plan.MultiplicationChain;
import org.kornspur.processors.plan.OwnYields;

/** What crops of the seed of a plan brought, by the facts of the record. */
@ApplicationScoped
public class YieldHistory {
  /** Latest crops that are looked at; each is a question to the store that holds it. */
  private static final int MOST_CROPS = 300;

  @Inject VisibleData data;

  /**
   * Yields by generation.
   *
   * @param rows of which the crops of the chain's seed are taken
   */
  List<OwnYields> of(List<StandingIndexRow> rows, MultiplicationChain chain) {
    Map<String, Generation> generations = new HashMap<>();
    chain.steps().forEach(step -> generations.put(step.seedId(), step.generation()));
    return OwnYields.of(
        rows.stream()
            .filter(row -> row.subject().kind() == Subject.Kind.CROP)
            .filter(row -> generations.containsKey(row.material().orElseThrow().getSeedId()))
            .sorted(Comparator.comparing(YieldHistory::year).reversed())
            .limit(MOST_CROPS)
            .map(row -> grown(row, generations))
            .toList());
  }

  private static int year(StandingIndexRow row) {
    return row.material().orElseThrow().getCropYear();
  }

  private OwnYields.Grown grown(StandingIndexRow row, Map<String, Generation> generations) {
    double areaHa = 0;
    double harvestKg = 0;
    for (SpecificRecord fact : data.countingFacts(row.subject())) {
      if (fact instanceof Sowing sowing) {
        areaHa += sowing.getAreaHa();
      } else if (fact instanceof Harvest harvest) {
        harvestKg += harvest.getMassKg();
      }
    }
    return new OwnYields.Grown(
        generations.get(row.material().orElseThrow().getSeedId()), year(row), areaHa, harvestKg);
  }
}
