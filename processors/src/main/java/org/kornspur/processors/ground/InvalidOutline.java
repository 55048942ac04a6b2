package org.kornspur.processors.ground;

import java.util.Optional;

/**
 * Corners that make no field. The message names the corner or the crossing edges, counted from 1 as
 * they were given, and what to do.
 */
public final class InvalidOutline extends IllegalArgumentException {
  /** What is wrong with the outline. */
  public enum Fault {
    TOO_FEW_CORNERS,
    NOT_A_NUMBER,
    OUT_OF_RANGE,
    REPEATED_CORNER,
    SPIKE,
    CROSSING,
    HOLE_MISPLACED,
    TOO_LARGE,
    POLAR
  }

  private final Fault fault;
  private final transient GeoPosition place;

  InvalidOutline(Fault fault, GeoPosition place, String message) {
    super(message);
    this.fault = fault;
    this.place = place;
  }

  public Fault fault() {
    return fault;
  }

  /** Where on the ground, for the map; empty where no place can be named. */
  public Optional<GeoPosition> place() {
    return Optional.ofNullable(place);
  }
}
