package org.kornspur.processors.statistics;

/** Refusals of arguments, worded for the person who reads them. */
final class Preconditions {

  private Preconditions() {}

  /** Refuses what is not strictly between 0 and 1. */
  static void probability(String name, double value) {
    if (!(value > 0 && value < 1)) {
      throw new IllegalArgumentException(
          "The " + name + " must lie between 0 and 1, both excluded; it is " + value);
    }
  }

  /** Refuses what is not from 0 to 1. */
  static void share(String name, double value) {
    if (!(value >= 0 && value <= 1)) {
      throw new IllegalArgumentException(
          "The " + name + " is a share and must lie from 0 to 1; it is " + value);
    }
  }

  /** Refuses what is not above 0 or not finite. */
  static void positive(String name, double value) {
    if (!(value > 0) || Double.isInfinite(value)) {
      throw new IllegalArgumentException("The " + name + " must be above 0; it is " + value);
    }
  }

  /** Refuses a count below 0 or above what was examined. */
  static void count(int count, int examined) {
    if (examined < 1) {
      throw new IllegalArgumentException(
          "At least one unit must have been examined; the number given is " + examined);
    }
    if (count < 0 || count > examined) {
      throw new IllegalArgumentException(
          "The count must lie from 0 to the " + examined + " examined; it is " + count);
    }
  }
}
