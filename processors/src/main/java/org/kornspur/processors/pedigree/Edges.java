package org.kornspur.processors.pedigree;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.contract.Admixture;
import org.kornspur.contract.Blend;
import org.kornspur.contract.Conditioning;
import org.kornspur.contract.Dispatch;
import org.kornspur.contract.FactHeader;
import org.kornspur.contract.Harvest;
import org.kornspur.contract.LotMass;
import org.kornspur.contract.LotMerge;
import org.kornspur.contract.LotSplit;
import org.kornspur.contract.Sowing;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Subject;

/** The edges that a fact adds to the pedigree. */
public final class Edges {

  private Edges() {}

  /** Edges of one fact; empty for facts that move no seed. */
  public static List<Edge> of(SpecificRecord fact) {
    return switch (FactType.of(fact)) {
      case SOWING -> {
        Sowing sowing = (Sowing) fact;
        yield gathered(fact, sowing.getSown(), Subject.crop(sowing.getCropId()));
      }
      case HARVEST -> {
        Harvest harvest = (Harvest) fact;
        yield List.of(
            edge(
                fact,
                Subject.crop(harvest.getCropId()),
                Subject.lot(harvest.getLotId()),
                harvest.getMassKg()));
      }
      case CONDITIONING -> {
        Conditioning conditioning = (Conditioning) fact;
        yield shared(fact, conditioning.getInputs(), conditioning.getOutputs());
      }
      case LOT_SPLIT -> {
        LotSplit split = (LotSplit) fact;
        yield split.getParts().stream()
            .map(
                part ->
                    edge(
                        fact,
                        Subject.lot(split.getFromLotId()),
                        Subject.lot(part.getLotId()),
                        part.getMassKg()))
            .toList();
      }
      case LOT_MERGE -> {
        LotMerge merge = (LotMerge) fact;
        yield gathered(fact, merge.getInputs(), Subject.lot(merge.getIntoLotId()));
      }
      case BLEND -> {
        Blend blend = (Blend) fact;
        yield gathered(
            fact,
            Stream.concat(blend.getFemales().stream(), blend.getPollinators().stream()).toList(),
            Subject.lot(blend.getBlendLotId()));
      }
      case ADMIXTURE -> {
        Admixture admixture = (Admixture) fact;
        yield gathered(
            fact,
            Stream.concat(
                    admixture.getHybridLots().stream(), admixture.getOpenPollinatedLots().stream())
                .toList(),
            Subject.lot(admixture.getIntoLotId()));
      }
      case DISPATCH -> {
        Dispatch dispatch = (Dispatch) fact;
        yield List.of(
            edge(
                fact,
                Subject.lot(dispatch.getLotId()),
                Subject.enterprise(dispatch.getCustomerId()),
                dispatch.getMassKg()));
      }
      case ENTERPRISE_DECLARED,
          HYBRID_DECLARED,
          FIELD_CROP_DECLARED,
          LOT_DECLARED,
          POLLEN_SOURCE_SEEN,
          FIELD_INSPECTION,
          STERILITY_CHECK,
          FLOWERING_SEEN,
          SAMPLING,
          GERMINATION_TEST,
          PURITY_TEST,
          OTHER_SEED_DETERMINATION,
          MOISTURE_TEST,
          KERNEL_WEIGHT_TEST,
          BLEND_COMPOSITION,
          POST_CONTROL_RESULT,
          WITHDRAWAL,
          RELEASE,
          SUSPENSION,
          CONDEMNATION,
          DOWNGRADE,
          REFUSED_ACT ->
          List.of();
    };
  }

  private static List<Edge> gathered(SpecificRecord fact, List<LotMass> from, Subject into) {
    return from.stream()
        .map(part -> edge(fact, Subject.lot(part.getLotId()), into, part.getMassKg()))
        .toList();
  }

  private static List<Edge> shared(
      SpecificRecord fact, List<LotMass> inputs, List<LotMass> outputs) {
    double inputKg = inputs.stream().mapToDouble(LotMass::getMassKg).sum();
    List<Edge> edges = new ArrayList<>();
    for (LotMass input : inputs) {
      for (LotMass output : outputs) {
        edges.add(
            edge(
                fact,
                Subject.lot(input.getLotId()),
                Subject.lot(output.getLotId()),
                output.getMassKg() * input.getMassKg() / inputKg));
      }
    }
    return edges;
  }

  private static Edge edge(SpecificRecord fact, Subject parent, Subject child, double massKg) {
    FactHeader header = FactType.headerOf(fact);
    return new Edge(
        parent, child, massKg, FactType.of(fact), header.getFactId(), header.getHappenedAt());
  }
}
