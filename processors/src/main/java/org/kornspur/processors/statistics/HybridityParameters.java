package org.kornspur.processors.statistics;

import java.util.Map;

/**
 * What the forecast of hybridity takes from literature and practice, where a rulebook names nothing
 * else.
 *
 * @param shedderPollen pollen of a shedding female plant, as a part of a pollinator plant's
 * @param pollinatorYield seed that a pollinator plant bears, as a part of a female plant's
 * @param kernelTailExponent exponent of the tail of the pollen kernel
 * @param kernelDistanceM distance for which the kernel is known, metres
 * @param kernelShareWithin share of pollen that falls within that distance
 */
public record HybridityParameters(
    Parameter shedderPollen,
    Parameter pollinatorYield,
    Parameter kernelTailExponent,
    Parameter kernelDistanceM,
    Parameter kernelShareWithin) {

  /** A parameter and where it comes from. */
  public record Parameter(TriangularRange spread, Source source) {}

  private record File(Map<String, Source> sources, Map<String, Row> parameters) {}

  private record Row(double least, double likely, double greatest, String source) {}

  /** The parameters in the file beside this class. */
  public static HybridityParameters published() {
    File file = PublishedFile.read("hybridity-parameters", File.class);
    return new HybridityParameters(
        parameter(file, "shedderPollen"),
        parameter(file, "pollinatorYield"),
        parameter(file, "kernelTailExponent"),
        parameter(file, "kernelDistanceM"),
        parameter(file, "kernelShareWithin"));
  }

  private static Parameter parameter(File file, String name) {
    Row row = file.parameters.get(name);
    return new Parameter(
        new TriangularRange(row.least, row.likely, row.greatest),
        PublishedFile.source(file.sources, row.source));
  }
}
