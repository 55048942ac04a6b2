package org.kornspur.processors.statistics;

import java.util.List;
import java.util.Map;

/**
 * How many primary samples a lot must be sampled with at least, as a rulebook has it. Containers
 * under 15 kg are put together to units of up to 100 kg, and those over 100 kg are sampled as bulk:
 * International Rules for Seed Testing, chapter 2, from memory, not verified.
 *
 * @param sources where the numbers stand, by the names that the rows use; {@code smallContainers}
 *     is the one for containers under 15 kg
 * @param containers by number of containers, without gaps
 * @param bulk by mass, rising; the last row has no end
 */
public record SamplingIntensity(
    Map<String, Source> sources, List<ContainerRow> containers, List<BulkRow> bulk) {

  private static final double SMALL_BELOW_KG = 15;
  private static final double UNIT_KG = 100;

  /** {@code each} primary samples from every container, or {@code total} from different ones. */
  public record ContainerRow(int from, int to, int each, int total, String source) {}

  /** One primary sample for every {@code kgEach} begun, and no fewer than {@code least}. */
  public record BulkRow(double upToKg, double kgEach, int least, String source) {}

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
   * @param number number of containers
   * @param lotMassKg mass of the lot
   * @throws IllegalArgumentException where there is no container or no mass
   */
  public Required inContainers(int number, double lotMassKg) {
    Preconditions.positive("mass of the lot in kilograms", lotMassKg);
    if (number < 1) {
      throw new IllegalArgumentException(
          "A lot in containers has at least one; the number given is " + number);
    }
    double kgEach = lotMassKg / number;
    if (kgEach > UNIT_KG) {
      return inBulk(lotMassKg);
    }
    if (kgEach < SMALL_BELOW_KG) {
      int inUnit = (int) Math.floor(UNIT_KG / kgEach);
      Required required = ofSacks((number + inUnit - 1) / inUnit);
      return new Required(
          required.primarySamples, PublishedFile.source(sources, "smallContainers"));
    }
    return ofSacks(number);
  }

  /** For a lot in bulk, or in containers over 100 kg. */
  public Required inBulk(double lotMassKg) {
    Preconditions.positive("mass of the lot in kilograms", lotMassKg);
    for (BulkRow row : bulk) {
      if (lotMassKg <= row.upToKg) {
        int byMass = (int) Math.ceil(lotMassKg / row.kgEach);
        return new Required(Math.max(row.least, byMass), PublishedFile.source(sources, row.source));
      }
    }
    throw new IllegalStateException("The last row of the table for bulk has an end");
  }

  private Required ofSacks(int sacks) {
    for (ContainerRow row : containers) {
      if (row.from <= sacks && sacks <= row.to) {
        int samples = row.each > 0 ? row.each * sacks : row.total;
        return new Required(samples, PublishedFile.source(sources, row.source));
      }
    }
    throw new IllegalStateException("The table for containers has no row for " + sacks);
  }
}
