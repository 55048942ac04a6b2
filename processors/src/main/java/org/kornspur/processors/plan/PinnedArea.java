package org.kornspur.processors.plan;

/**
 * Hectares that a person has decided on; a plan sows them, or as many of them as there is seed for.
 *
 * @param year of harvest
 */
public record PinnedArea(String seedId, int year, double areaHa) {

  /**
   * @throws PlanRefusedException where the area is outside its bounds
   */
  public PinnedArea {
    PlanRefusedException.unlessWithin("areaHa", areaHa, 0, 10_000_000);
  }
}
