package org.kornspur.processors.advice;

import java.util.List;
import org.kornspur.ingest.statement.Statement;
import org.kornspur.processors.finding.Reference;
import org.kornspur.processors.statistics.HybridityParameters.Parameter;
import org.kornspur.processors.statistics.TriangularRange;

/**
 * One number that a piece of advice rests on.
 *
 * @param what what it is
 * @param value least, likely and greatest value, in {@code unit}
 * @param unit its unit
 * @param origin how it came about
 * @param source where it stands or how it was found
 * @param verified false where it was not counted here and could not be read in a text
 * @param factIds facts that it rests on, in order
 */
public record InputValue(
    AdviceInput what,
    TriangularRange value,
    String unit,
    Origin origin,
    Statement source,
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

  static InputValue counted(
      AdviceInput what,
      TriangularRange value,
      String unit,
      InputSource source,
      List<String> factIds) {
    return new InputValue(what, value, unit, Origin.COUNTED, source, true, factIds);
  }

  static InputValue assumed(AdviceInput what, TriangularRange value, String unit) {
    return new InputValue(
        what, value, unit, Origin.ASSUMED, new InputSource.None(), false, List.of());
  }

  /** What whoever asks wants to be assumed. */
  static InputValue asked(AdviceInput what, double value, String unit) {
    return new InputValue(
        what,
        TriangularRange.exactly(value),
        unit,
        Origin.ASSUMED,
        new InputSource.Asked(),
        false,
        List.of());
  }

  static InputValue of(AdviceInput what, String unit, Parameter parameter) {
    boolean verified = parameter.source().verified();
    return new InputValue(
        what,
        parameter.spread(),
        unit,
        verified ? Origin.PUBLISHED : Origin.ASSUMED,
        new Reference.InText(parameter.source().text()),
        verified,
        List.of());
  }
}
