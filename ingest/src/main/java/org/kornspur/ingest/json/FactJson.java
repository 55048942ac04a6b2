package org.kornspur.ingest.json;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.intake.Problems;
import org.kornspur.ingest.problem.InputProblem;
import org.kornspur.ingest.problem.ValueProblem;

/**
 * Reads a fact from plain JSON: an object with {@code "type": "GerminationTest"} beside the fields
 * of that type in the contract.
 *
 * <p>Instants are ISO 8601 with zone ({@code 2024-06-11T09:30:00+02:00}) and kept to the
 * millisecond; dates are ISO dates. Fields that the contract gives a default may be left out. Every
 * fault is named, not the first alone.
 */
public final class FactJson {

  /** The field that says what type of fact an object is. */
  public static final String TYPE_FIELD = "type";

  /** The field of the header that says who brought a fact; nobody may send it in. */
  public static final String SUBMISSION_FIELD = "submission";

  private FactJson() {}

  /** Reads the shape alone: limits of values and ties between fields are left to the checks. */
  public static ReadResult read(JsonNode json) {
    return read(json, (schema, value, path, problems) -> {});
  }

  static ReadResult read(JsonNode json, RecordReader.ValueCheck check) {
    Problems problems = new Problems();
    Optional<FactType> type = typeOf(json, problems);
    if (type.isEmpty()) {
      return new ReadResult.Refused(problems.list());
    }
    Optional<SpecificRecord> fact =
        new RecordReader(problems, check).readFact(type.get().schema(), json);
    return fact.isPresent()
        ? new ReadResult.Fact(fact.get())
        : new ReadResult.Refused(problems.list());
  }

  private static Optional<FactType> typeOf(JsonNode json, Problems problems) {
    if (json == null || !json.isObject()) {
      problems.add("", Json.given(json), new InputProblem.NoObject());
      return Optional.empty();
    }
    JsonNode name = json.get(TYPE_FIELD);
    Optional<FactType> type =
        name != null && name.isTextual() ? FactType.named(name.textValue()) : Optional.empty();
    if (type.isEmpty()) {
      problems.add(TYPE_FIELD, Json.given(name), new ValueProblem.UnknownType(knownTypes()));
    }
    return type;
  }

  private static List<String> knownTypes() {
    return Arrays.stream(FactType.values())
        .filter(type -> !type.isAct())
        .map(FactType::contractName)
        .sorted()
        .toList();
  }
}
