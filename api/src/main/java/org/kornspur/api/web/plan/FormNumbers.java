package org.kornspur.api.web.plan;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.regex.Pattern;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.problem.ParameterProblem;
import org.kornspur.api.problem.ProblemKind;
import org.kornspur.api.text.Language;
import org.kornspur.api.text.TypedNumber;
import org.kornspur.ingest.intake.Problem;
import org.kornspur.ingest.problem.Expected;
import org.kornspur.ingest.problem.ValueProblem;

/** Reads the numbers of a form, and notes all that are none. */
final class FormNumbers {
  private static final Pattern WHOLE = Pattern.compile("\\d{1,9}");

  private final Language language;
  private final List<Problem> problems = new ArrayList<>();

  /**
   * @param language by whose customs numbers are written
   */
  FormNumbers(Language language) {
    this.language = language;
  }

  /** Empty where nothing is written, or, noted, what is no whole number. */
  Optional<Integer> whole(String field, String text) {
    String written = text.strip();
    if (written.isEmpty() || WHOLE.matcher(written).matches()) {
      return Optional.of(written).filter(one -> !one.isEmpty()).map(Integer::valueOf);
    }
    problems.add(
        Problem.of(field, written, new ValueProblem.OtherValue(new Expected.WholeNumber())));
    return Optional.empty();
  }

  /** Empty where nothing is written, or, noted, what is no number or can be read in two ways. */
  Optional<Double> decimal(String field, String text) {
    String written = text.strip();
    if (written.isEmpty()) {
      return Optional.empty();
    }
    TypedNumber typed = TypedNumber.of(written, language);
    if (typed instanceof TypedNumber.Plain plain) {
      return Optional.of(plain.value().doubleValue());
    }
    problems.add(
        Problem.of(
            field,
            written,
            typed instanceof TypedNumber.Ambiguous two
                ? new ParameterProblem.AmbiguousNumber(two.grouped(), two.decimal())
                : new ValueProblem.OtherValue(new Expected.Decimal())));
    return Optional.empty();
  }

  /** Notes what else is wrong. */
  void note(Problem problem) {
    problems.add(problem);
  }

  /**
   * To be called when all are read.
   *
   * @throws ApiProblem if any is wrong
   */
  void check() {
    if (!problems.isEmpty()) {
      throw new ApiProblem(ProblemKind.INVALID_PARAMETER, problems);
    }
  }
}
