package org.kornspur.api.export.epcis;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.List;
import java.util.Optional;
import org.apache.avro.Schema;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.api.export.identity.Vocabulary;
import org.kornspur.contract.BlendComposition;
import org.kornspur.contract.GerminationReplicate;
import org.kornspur.contract.GerminationTest;
import org.kornspur.contract.KernelWeightTest;
import org.kornspur.contract.PurityTest;
import org.kornspur.contract.WeighedKernels;
import org.kornspur.ingest.contract.FactType;

/**
 * What was counted, weighed or measured, as sensor reports: each number of the fact under the name
 * of its field, then the figure that the trade reads from them. Numbers are as they were found, not
 * rounded.
 *
 * <p>The measurement types are our own; GS1's list has physical quantities and no germination.
 */
final class Measurements {

  private static final double PERCENT = 100;
  private static final double THOUSAND_KERNELS = 1000;

  private Measurements() {}

  /** Reports of a fact; empty for one that holds no number of its own. */
  static ArrayNode of(SpecificRecord fact) {
    ArrayNode reports = JsonNodeFactory.instance.arrayNode();
    for (Schema.Field field : fact.getSchema().getFields()) {
      Object value = fact.get(field.pos());
      unitOf(field.schema())
          .ifPresent(
              unit -> {
                if (value instanceof Number number) {
                  add(reports, field.name(), number.doubleValue(), Units.codeOf(unit));
                }
              });
    }
    addFigure(fact, reports);
    return reports;
  }

  private static void addFigure(SpecificRecord fact, ArrayNode reports) {
    switch (FactType.of(fact)) {
      case GERMINATION_TEST -> {
        List<GerminationReplicate> replicates = ((GerminationTest) fact).getReplicates();
        double seeds = replicates.stream().mapToInt(GerminationReplicate::getSeeds).sum();
        double normal =
            replicates.stream().mapToInt(GerminationReplicate::getNormalSeedlings).sum();
        add(reports, "germinationPercent", PERCENT * normal / seeds, percent());
      }
      case PURITY_TEST -> {
        PurityTest test = (PurityTest) fact;
        double whole = test.getPureSeedG() + test.getInertMatterG() + test.getOtherSeedsG();
        add(reports, "purityPercent", PERCENT * test.getPureSeedG() / whole, percent());
      }
      case KERNEL_WEIGHT_TEST -> {
        List<WeighedKernels> replicates = ((KernelWeightTest) fact).getReplicates();
        double kernels = replicates.stream().mapToInt(WeighedKernels::getKernels).sum();
        double massG = replicates.stream().mapToDouble(WeighedKernels::getMassG).sum();
        add(
            reports,
            "thousandKernelWeightG",
            THOUSAND_KERNELS * massG / kernels,
            Optional.of(Units.GRAM));
      }
      case BLEND_COMPOSITION -> {
        BlendComposition counted = (BlendComposition) fact;
        double share = PERCENT * counted.getPollinatorKernels() / counted.getKernelsExamined();
        add(reports, "pollinatorSharePercent", share, percent());
      }
      default -> {
        // the numbers of other facts are themselves what is read
      }
    }
  }

  private static Optional<String> percent() {
    return Optional.of(Units.PERCENT);
  }

  private static void add(
      ArrayNode reports, String measure, double value, Optional<String> unitCode) {
    ObjectNode report = reports.addObject();
    report.put("type", Vocabulary.term(measure));
    report.put("value", value);
    unitCode.ifPresent(code -> report.put("uom", code));
  }

  private static Optional<String> unitOf(Schema schema) {
    if (schema.getType() != Schema.Type.UNION) {
      return Optional.ofNullable(schema.getProp("unit"));
    }
    return schema.getTypes().stream().flatMap(type -> unitOf(type).stream()).findFirst();
  }
}
