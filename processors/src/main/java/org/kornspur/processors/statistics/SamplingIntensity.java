package org.kornspur.processors.statistics;

import java.util.List;
import java.util.Map;

/**
 * How many primary samples a lot must be sampled with at least.
 *
 * <p>Containers of 15 to 100 kg: Cereal Seed (Scotland) Regulations 2005 (SSI 2005/328), schedule
 * 5, paragraph 6. Larger containers and bulk: the table of Fodder Plant Seed (Scotland) Regulations
 * 2005 (SSI 2005/329), schedule 5, paragraph 11, which has the numbers of the International Rules
 * for Seed Testing; the paragraph for cereals itself was not read. Smaller containers are put
 * together to units of up to 100 kg, from memory, not verified.
 */
public final class SamplingIntensity {

  private static final File FILE = PublishedFile.read("sampling-intensity", File.class);
  private static final double SMALL_BELOW_KG = 15;
  private static final double UNIT_KG = 100;

  private record File(
      Map<String, Source> sources, List<ContainerRow> containers, List<BulkRow> bulk) {}

  /** {@code each} primary samples from every container, or {@code total} from different ones. */
  private record ContainerRow(int from, int to, int each, int total, String source) {}

  /** One primary sample for every {@code kgEach} begun, and no fewer than {@code least}. */
  private record BulkRow(double upToKg, double kgEach, int least, String source) {}

  private SamplingIntensity() {}

  /**
   * What is required.
   *
   * @param primarySamples least number of primary samples
   * @param source where it stands
   */
  public record Required(int primarySamples, Source source) {}

  /**
   * For a lot in containers.
   *
   * @param containers number of containers
   * @param lotMassKg mass of the lot
   * @throws IllegalArgumentException where there is no container or no mass
   */
  public static Required inContainers(int containers, double lotMassKg) {
    Checks.positive("mass of the lot in kilograms", lotMassKg);
    if (containers < 1) {
      throw new IllegalArgumentException(
          "A lot in containers has at least one; the number given is " + containers);
    }
    double kgEach = lotMassKg / containers;
    if (kgEach > UNIT_KG) {
      return inBulk(lotMassKg);
    }
    if (kgEach < SMALL_BELOW_KG) {
      int inUnit = (int) Math.floor(UNIT_KG / kgEach);
      Required required = ofSacks((containers + inUnit - 1) / inUnit);
      return new Required(
          required.primarySamples, PublishedFile.source(FILE.sources, "smallContainers"));
    }
    return ofSacks(containers);
  }

  /** For a lot in bulk, or in containers over 100 kg. */
  public static Required inBulk(double lotMassKg) {
    Checks.positive("mass of the lot in kilograms", lotMassKg);
    for (BulkRow row : FILE.bulk) {
      if (lotMassKg <= row.upToKg) {
        int byMass = (int) Math.ceil(lotMassKg / row.kgEach);
        return new Required(
            Math.max(row.least, byMass), PublishedFile.source(FILE.sources, row.source));
      }
    }
    throw new IllegalStateException("The last row of the table for bulk has an end");
  }

  private static Required ofSacks(int containers) {
    for (ContainerRow row : FILE.containers) {
      if (row.from <= containers && containers <= row.to) {
        int samples = row.each > 0 ? row.each * containers : row.total;
        return new Required(samples, PublishedFile.source(FILE.sources, row.source));
      }
    }
    throw new IllegalStateException("The table for containers has no row for " + containers);
  }
}
