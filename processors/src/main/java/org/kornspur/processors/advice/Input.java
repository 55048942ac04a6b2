package org.kornspur.processors.advice;

import java.util.List;
import org.kornspur.processors.statistics.HybridityParameters.Parameter;
import org.kornspur.processors.statistics.Spread;

/**
 * One number that a piece of advice rests on.
 *
 * @param what what it is, in the words of the trade
 * @param value least, likely and greatest value, in {@code unit}
 * @param unit its unit
 * @param origin how it came about
 * @param source where it stands or how it was found
 * @param verified false where it was not counted here and could not be read in a text
 * @param factIds facts that it rests on, in order
 */
public record Input(
    String what,
    Spread value,
    String unit,
    Origin origin,
    String source,
    boolean verified,
    List<String> factIds) {

  /** How a number came about. */
  public enum Origin {
    /** Counted or measured in this crop or its seed. */
    COUNTED,
    /** Stated by the breeder or by a rulebook, in place of a count. */
    STATED,
    /** From literature. */
    PUBLISHED,
    /** Taken because nothing better is known. */
    ASSUMED
  }

  static final String NO_SOURCE =
      "Assumption without a source, to be replaced by counts or marker tests as they come";

  public Input {
    factIds = List.copyOf(factIds);
  }

  static Input counted(
      String what, Spread value, String unit, String source, List<String> factIds) {
    return new Input(what, value, unit, Origin.COUNTED, source, true, factIds);
  }

  static Input assumed(String what, Spread value, String unit) {
    return new Input(what, value, unit, Origin.ASSUMED, NO_SOURCE, false, List.of());
  }

  static Input of(String what, String unit, Parameter parameter) {
    boolean verified = parameter.source().verified();
    return new Input(
        what,
        parameter.spread(),
        unit,
        verified ? Origin.PUBLISHED : Origin.ASSUMED,
        parameter.source().text(),
        verified,
        List.of());
  }
}
