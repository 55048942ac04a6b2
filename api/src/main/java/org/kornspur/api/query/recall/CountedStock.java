package org.kornspur.api.query.recall;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.problem.ParameterProblem;
import org.kornspur.api.problem.ProblemKind;
import org.kornspur.api.problem.RequestGiven;
import org.kornspur.api.text.Language;
import org.kornspur.api.text.TypedNumber;
import org.kornspur.ingest.intake.Problem;
import org.kornspur.ingest.problem.Given;
import org.kornspur.ingest.statement.Value.Amount;

/** Reads what was counted in store: kilograms by lot. */
public final class CountedStock {
  private static final int MOST_LOTS = 5_000;
  private static final double MOST_KILOGRAMS = 99_999_999.999;
  private static final String NO_MASS = "-";
  private static final int MOST_DECIMALS = 3;

  private CountedStock() {}

  /**
   * Reads {@code lot:kg}, the lot's id and kilograms separated by the last colon, as the interface
   * takes them: with a decimal point.
   *
   * @throws ApiProblem naming every part that cannot be read
   */
  public static Map<String, Double> of(List<String> stocks) {
    List<String> lots = new ArrayList<>();
    List<String> masses = new ArrayList<>();
    for (String stock : stocks) {
      int colon = stock.lastIndexOf(':');
      lots.add(colon < 0 ? stock : stock.substring(0, colon));
      masses.add(colon < 0 ? NO_MASS : stock.substring(colon + 1));
    }
    return of(lots, masses, Language.ENGLISH);
  }

  /**
   * Reads lots and their masses, the first with the first; a lot with a blank mass was not counted.
   *
   * @param language by whose customs the masses are written
   * @throws ApiProblem naming every mass that cannot be read
   */
  public static Map<String, Double> of(List<String> lots, List<String> masses, Language language) {
    List<Problem> problems = new ArrayList<>();
    if (lots.size() != masses.size() || lots.size() > MOST_LOTS) {
      problems.add(
          Problem.of(
              "stock",
              new RequestGiven.LotsAndMasses(lots.size(), masses.size()),
              new ParameterProblem.MassForEachLot(MOST_LOTS)));
      throw new ApiProblem(ProblemKind.INVALID_PARAMETER, problems);
    }
    Map<String, Double> counted = new TreeMap<>();
    for (int i = 0; i < lots.size(); i++) {
      String mass = masses.get(i).strip();
      TypedNumber typed = TypedNumber.of(mass, language);
      if (typed instanceof TypedNumber.Plain number && isMass(number.value())) {
        counted.put(lots.get(i), number.value().doubleValue());
      } else if (!mass.isEmpty()) {
        problems.add(
            Problem.of(
                "stock",
                new RequestGiven.MassOfLot(
                    Given.text(masses.get(i), false), Given.text(lots.get(i), false)),
                typed instanceof TypedNumber.Ambiguous two
                    ? new ParameterProblem.AmbiguousNumber(two.grouped(), two.decimal())
                    : new ParameterProblem.Kilograms(
                        Amount.kilograms(0), Amount.kilograms(MOST_KILOGRAMS))));
      }
    }
    if (!problems.isEmpty()) {
      throw new ApiProblem(ProblemKind.INVALID_PARAMETER, problems);
    }
    return counted;
  }

  private static boolean isMass(BigDecimal kilograms) {
    return kilograms.signum() >= 0
        && kilograms.scale() <= MOST_DECIMALS
        && kilograms.doubleValue() <= MOST_KILOGRAMS;
  }
}
