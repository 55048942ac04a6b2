package org.kornspur.api.http;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.JsonMappingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.exc.InvalidFormatException;
import com.fasterxml.jackson.databind.exc.MismatchedInputException;
import com.fasterxml.jackson.databind.exc.UnrecognizedPropertyException;
import java.io.IOException;
import java.lang.reflect.RecordComponent;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collection;
import java.util.List;
import java.util.stream.Collectors;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.problem.BodyProblem;
import org.kornspur.api.problem.ParameterProblem;
import org.kornspur.api.problem.ProblemKind;
import org.kornspur.api.problem.RequestGiven;
import org.kornspur.ingest.intake.Problem;
import org.kornspur.ingest.problem.Expected;
import org.kornspur.ingest.problem.ValueProblem;

/** Reads the JSON body of a request and says all that is wrong with it at once. */
public final class JsonBody {
  private final List<Problem> problems = new ArrayList<>();

  /**
   * Reads JSON strictly: a field that is not known is refused, since a misspelt one would be passed
   * over.
   *
   * @throws ApiProblem if it is empty or of another shape
   * @throws JsonProcessingException if it is no JSON
   */
  public static <T> T read(ObjectMapper json, byte[] bytes, Class<T> type) throws IOException {
    T read;
    try {
      read =
          json.readerFor(type)
              .with(DeserializationFeature.FAIL_ON_UNKNOWN_PROPERTIES)
              .with(DeserializationFeature.FAIL_ON_TRAILING_TOKENS)
              .readValue(bytes);
    } catch (JsonMappingException otherShape) {
      throw new ApiProblem(ProblemKind.INVALID_PARAMETER, problem(otherShape));
    }
    if (read == null) {
      throw new ApiProblem(
          ProblemKind.INVALID_PARAMETER, Problem.of("", null, new BodyProblem.NoObject()));
    }
    return read;
  }

  /** The value of a field that must be there; null, and noted, where it is not. */
  public <T> T required(String field, T value, Expected expected) {
    if (value == null || value.toString().isBlank()) {
      problems.add(Problem.of(field, value, new ValueProblem.Missing(expected)));
      return null;
    }
    return value;
  }

  /** A whole number that must be there; 0, and noted, where it is not. */
  public int whole(String field, Double value, int least, int most) {
    if (required(field, value, new Expected.WholeNumber()) == null) {
      return 0;
    }
    if (value != Math.rint(value) || value < least || value > most) {
      problems.add(Problem.of(field, value, new ParameterProblem.WholeNumber(least, most)));
      return 0;
    }
    return value.intValue();
  }

  /**
   * To be called when all are read.
   *
   * @throws ApiProblem if any is wrong
   */
  public void check() {
    if (!problems.isEmpty()) {
      throw new ApiProblem(ProblemKind.INVALID_PARAMETER, problems);
    }
  }

  private static Problem problem(JsonMappingException fault) {
    String field =
        fault.getPath().stream()
            .map(
                step ->
                    step.getFieldName() == null ? "[" + step.getIndex() + "]" : step.getFieldName())
            .collect(Collectors.joining("."));
    if (fault instanceof UnrecognizedPropertyException unknown) {
      List<String> known =
          unknown.getKnownPropertyIds().stream().map(Object::toString).sorted().toList();
      return Problem.of(
          field, new RequestGiven.UnknownField(), new BodyProblem.UnknownField(known));
    }
    if (fault instanceof InvalidFormatException format) {
      return Problem.of(
          field, format.getValue(), new ValueProblem.OtherValue(expected(format.getTargetType())));
    }
    return Problem.of(
        field,
        new RequestGiven.OtherShape(),
        fault instanceof MismatchedInputException mismatch && mismatch.getTargetType() != null
            ? new ValueProblem.OtherValue(expected(mismatch.getTargetType()))
            : new BodyProblem.OtherShape());
  }

  private static Expected expected(Class<?> type) {
    if (type.isEnum()) {
      return oneOf(type);
    }
    if (Number.class.isAssignableFrom(type) || type.isPrimitive()) {
      return new Expected.Decimal();
    }
    if (CharSequence.class.isAssignableFrom(type)) {
      return new Expected.Text();
    }
    return Collection.class.isAssignableFrom(type)
        ? new Expected.Elements()
        : new Expected.ObjectWith(
            Arrays.stream(type.getRecordComponents()).map(RecordComponent::getName).toList());
  }

  /** One of the constants of an enumeration. */
  public static Expected oneOf(Class<?> type) {
    return new Expected.OneOf(
        Arrays.stream(type.getEnumConstants()).map(Object::toString).toList());
  }
}
