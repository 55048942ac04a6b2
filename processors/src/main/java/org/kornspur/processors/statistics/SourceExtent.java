package org.kornspur.processors.statistics;

import java.util.List;

/** Where the plants of a source of foreign pollen stand, as seen from the crop. */
public sealed interface SourceExtent {

  /**
   * Pollen that the crop receives from it, as a part of what a place receives in the midst of such
   * a source.
   */
  double received(PollenKernel kernel);

  /**
   * Both outlines are known: what area of the source lies how far off, on the mean over the crop.
   *
   * @param sharedPart part of the crop's area that the source lies on, from 0 to 1; what is shed
   *     there counts whole, and so too much by what the crop's edge loses
   * @param parts the source beyond the crop, nearest first
   */
  record ByDistance(double sharedPart, List<Part> parts) implements SourceExtent {

    @Override
    public double received(PollenKernel kernel) {
      double sum = sharedPart;
      for (Part part : parts) {
        sum += part.areaM2 * kernel.density(part.distanceM);
      }
      return sum;
    }
  }

  /**
   * Some of a source.
   *
   * @param distanceM metres to it
   * @param areaM2 its area, square metres; more or less than it has where a wind favours or hinders
   *     it
   */
  record Part(double distanceM, double areaM2) {}

  /**
   * An outline is not known: the source is taken as the piece of a ring, and the whole crop to lie
   * at its own nearest edge.
   *
   * @param distanceM distance of the near side, metres
   * @param depthM how far it reaches beyond its near side, metres
   * @param frontageM width of the side turned to the crop, metres
   * @param windFactor how many times as much arrives as without a prevailing wind
   */
  record Facing(double distanceM, double depthM, double frontageM, double windFactor)
      implements SourceExtent {
    @Override
    public double received(PollenKernel kernel) {
      return windFactor * kernel.received(distanceM, depthM, frontageM);
    }
  }
}
