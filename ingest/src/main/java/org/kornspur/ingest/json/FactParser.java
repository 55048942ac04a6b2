package org.kornspur.ingest.json;

import com.fasterxml.jackson.core.JsonLocation;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Optional;
import org.kornspur.ingest.attestation.SignedActs;
import org.kornspur.ingest.attestation.SignedSubmissions;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.intake.FactChecks;
import org.kornspur.ingest.intake.FieldLimits;
import org.kornspur.ingest.intake.Problem;
import org.kornspur.ingest.problem.Given;
import org.kornspur.ingest.problem.InputProblem;
import org.kornspur.ingest.problem.IntakeReason;

/**
 * The one way in for facts in JSON, over HTTP or from files: reads, then checks, and either gives
 * the fact or says all that is wrong. It throws nothing for any input.
 */
public final class FactParser {

  private FactParser() {}

  /**
   * Takes in a fact that has been parsed; an act of a person is refused, and so is a fact that says
   * itself who brought it.
   */
  public static ReadResult accept(JsonNode json) {
    Optional<FactType> act = actIn(json);
    if (act.isPresent()) {
      return new ReadResult.Refused(List.of(SignedActs.notTakenIn(act.get())));
    }
    if (json != null && json.path("header").hasNonNull(FactJson.SUBMISSION_FIELD)) {
      return new ReadResult.Refused(List.of(SignedSubmissions.notTakenIn()));
    }
    ReadResult read = FactJson.read(json, FieldLimits::checkValue);
    if (read instanceof ReadResult.Fact fact) {
      List<Problem> problems = FactChecks.check(fact.fact());
      return problems.isEmpty() ? fact : new ReadResult.Refused(problems);
    }
    return read;
  }

  private static Optional<FactType> actIn(JsonNode json) {
    JsonNode type = json == null ? null : json.get(FactJson.TYPE_FIELD);
    return type != null && type.isTextual()
        ? FactType.named(type.textValue()).filter(FactType::isAct)
        : Optional.empty();
  }

  /** Takes in a fact as text. */
  public static ReadResult accept(String text) {
    if (text.length() > JsonText.LONGEST_FACT_BYTES) {
      return tooLong(text.length());
    }
    try {
      return accept(JsonText.parse(text));
    } catch (JsonProcessingException e) {
      return notJson(e);
    } catch (IOException e) {
      return refused(
          new Given.NotJson(Optional.empty(), Optional.empty(), Problem.described(e.toString())),
          new InputProblem.NotJson(JsonText.DEEPEST));
    }
  }

  /** Takes in a fact as bytes in UTF-8. */
  public static ReadResult accept(byte[] utf8) {
    if (utf8.length > JsonText.LONGEST_FACT_BYTES) {
      return tooLong(utf8.length);
    }
    try {
      return accept(StandardCharsets.UTF_8.newDecoder().decode(ByteBuffer.wrap(utf8)).toString());
    } catch (CharacterCodingException e) {
      return refused(new Given.BytesNotUtf8(utf8.length), new InputProblem.NotUtf8());
    }
  }

  /** The refusal of a text that is no JSON, with the place of the fault. */
  public static ReadResult.Refused notJson(JsonProcessingException fault) {
    Optional<JsonLocation> place = Optional.ofNullable(fault.getLocation());
    return refused(
        new Given.NotJson(
            place.map(JsonLocation::getLineNr),
            place.map(JsonLocation::getColumnNr),
            Problem.described(fault.getOriginalMessage())),
        new InputProblem.NotJson(JsonText.DEEPEST));
  }

  private static ReadResult.Refused tooLong(long length) {
    return refused(new Given.Bytes(length), new InputProblem.TooLong(JsonText.LONGEST_FACT_BYTES));
  }

  private static ReadResult.Refused refused(Given given, IntakeReason reason) {
    return new ReadResult.Refused(List.of(Problem.of("", given, reason)));
  }
}
