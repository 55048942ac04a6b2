package org.kornspur.api.advice;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.JsonMappingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.exc.InvalidFormatException;
import com.fasterxml.jackson.databind.exc.MismatchedInputException;
import com.fasterxml.jackson.databind.exc.UnrecognizedPropertyException;
import java.io.IOException;
import java.io.InputStream;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collection;
import java.util.List;
import java.util.function.Supplier;
import java.util.stream.Collectors;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.problem.BodyLimit;
import org.kornspur.api.problem.ProblemKind;
import org.kornspur.ingest.intake.Problem;

/** Reads the body of a request and says all that is wrong with it at once. */
final class AdviceBody {
  private final List<Problem> problems = new ArrayList<>();

  /**
   * Reads JSON strictly: a field that is not known is refused, since a misspelt one would be passed
   * over.
   *
   * @throws ApiProblem if it is empty or of another shape
   * @throws JsonProcessingException if it is no JSON
   */
  static <T> T read(ObjectMapper json, InputStream body, Class<T> type) throws IOException {
    byte[] bytes = BodyLimit.read(body);
    T read;
    try {
      read =
          json.readerFor(type)
              .with(DeserializationFeature.FAIL_ON_UNKNOWN_PROPERTIES)
              .with(DeserializationFeature.FAIL_ON_TRAILING_TOKENS)
              .readValue(bytes);
    } catch (JsonMappingException otherShape) {
      throw new ApiProblem(ProblemKind.INVALID_PARAMETER, List.of(problem(otherShape)));
    }
    if (read == null) {
      throw new ApiProblem(
          ProblemKind.INVALID_PARAMETER,
          List.of(new Problem("", "absent", "a JSON object", "Send one; see /openapi")));
    }
    return read;
  }

  /** The value of a field that must be there; null, and noted, where it is not. */
  <T> T required(String field, T value, String limit) {
    if (value == null || value.toString().isBlank()) {
      problems.add(new Problem(field, Problem.shown(value), limit, "Fill it in"));
      return null;
    }
    return value;
  }

  /** A whole number that must be there; 0, and noted, where it is not. */
  int whole(String field, Double value, int least, int most) {
    String limit = "a whole number from " + least + " to " + most;
    if (required(field, value, limit) == null) {
      return 0;
    }
    if (value != Math.rint(value) || value < least || value > most) {
      problems.add(new Problem(field, Problem.shown(value), limit, "Give such a number"));
      return 0;
    }
    return value.intValue();
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

  /** Asks for advice; what it refuses becomes a problem document with its words. */
  static <T> T asked(Supplier<T> advice) {
    try {
      return advice.get();
    } catch (IllegalArgumentException refused) {
      throw new ApiProblem(ProblemKind.REQUEST_REFUSED, refused.getMessage());
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
      String known =
          unknown.getKnownPropertyIds().stream()
              .map(Object::toString)
              .sorted()
              .collect(Collectors.joining(", "));
      return new Problem(
          field, "a field that is not known here", "one of " + known, "Mend or remove it");
    }
    if (fault instanceof InvalidFormatException format) {
      return new Problem(
          field, Problem.shown(format.getValue()), kind(format.getTargetType()), "Give such a one");
    }
    return new Problem(
        field,
        "of another shape",
        fault instanceof MismatchedInputException mismatch && mismatch.getTargetType() != null
            ? kind(mismatch.getTargetType())
            : "a field of this request, with a value of its kind",
        "See /openapi for the fields of this request");
  }

  private static String kind(Class<?> type) {
    if (type.isEnum()) {
      return "one of "
          + Arrays.stream(type.getEnumConstants())
              .map(Object::toString)
              .collect(Collectors.joining(", "));
    }
    if (Number.class.isAssignableFrom(type) || type.isPrimitive()) {
      return "a number";
    }
    if (CharSequence.class.isAssignableFrom(type)) {
      return "a text";
    }
    return Collection.class.isAssignableFrom(type) ? "a list" : "an object with fields";
  }
}
