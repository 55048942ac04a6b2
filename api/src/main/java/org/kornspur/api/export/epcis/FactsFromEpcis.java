package org.kornspur.api.export.epcis;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.api.export.identity.EventId;
import org.kornspur.api.export.identity.Identifiers;
import org.kornspur.api.problem.BodyProblem;
import org.kornspur.api.problem.EventProblem;
import org.kornspur.contract.FactHeader;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.intake.Problem;
import org.kornspur.ingest.json.FactJson;
import org.kornspur.ingest.json.FactParser;
import org.kornspur.ingest.json.ReadResult;
import org.kornspur.ingest.problem.Given;

/**
 * Events as facts: one of ours by the whole fact that it carries, one from elsewhere as far as it
 * says enough. Every fact passes the ordinary checks.
 */
public final class FactsFromEpcis {

  private final ForeignEvents foreign;

  /**
   * @param ids how things are named outside
   * @param recordedBy person or device that brings events which carry no fact of ours
   */
  public FactsFromEpcis(Identifiers ids, String recordedBy) {
    this.foreign = new ForeignEvents(ids, recordedBy);
  }

  /**
   * Reads one event.
   *
   * @param factKeys names that a whole fact may stand under
   * @return a result for each fact that the event is or should be; never empty
   */
  public List<ReadResult> read(JsonNode event, Iterable<String> factKeys) {
    if (!event.isObject()) {
      return List.of(
          new ReadResult.Refused(
              List.of(Problem.of("", Given.of(event.asText()), new BodyProblem.NoObject()))));
    }
    for (String key : factKeys) {
      JsonNode whole = event.get(key);
      if (whole != null) {
        return List.of(ours(event, key, FactParser.accept(withoutSubmission(whole))));
      }
    }
    return foreign.read(event);
  }

  /** Who brought a fact elsewhere is no proof here: who captures it brings it. */
  private static JsonNode withoutSubmission(JsonNode whole) {
    if (whole.get("header") instanceof ObjectNode header && header.has(FactJson.SUBMISSION_FIELD)) {
      ObjectNode bare = whole.deepCopy();
      ((ObjectNode) bare.get("header")).remove(FactJson.SUBMISSION_FIELD);
      return bare;
    }
    return whole;
  }

  /**
   * An event whose own fields say something other than the fact in it was changed on its way; it is
   * not for us to choose which of the two holds.
   */
  private static ReadResult ours(JsonNode event, String key, ReadResult read) {
    if (!(read instanceof ReadResult.Fact fact)) {
      return new ReadResult.Refused(
          ((ReadResult.Refused) read)
              .problems().stream()
                  .map(
                      problem ->
                          new Problem(
                              problem.field().isEmpty() ? key : key + "." + problem.field(),
                              problem.value(),
                              problem.reason()))
                  .toList());
    }
    List<Problem> differences = differences(event, key, fact.fact());
    return differences.isEmpty() ? fact : new ReadResult.Refused(differences);
  }

  private static List<Problem> differences(JsonNode event, String key, SpecificRecord fact) {
    FactHeader header = FactType.headerOf(fact);
    EventShape shape = EventShape.of(FactType.of(fact));
    List<Problem> found = new ArrayList<>();
    compare(event, "type", shape.type().word(), key, found);
    compare(event, "bizStep", shape.bizStep(), key, found);
    compare(event, "eventID", EventId.ofFact(header.getFactId()), key, found);
    compareTimes(event, "eventTime", header.getHappenedAt(), key, found);
    compareTimes(event, "recordTime", header.getRecordedAt(), key, found);
    return found;
  }

  private static void compare(
      JsonNode event, String field, String expected, String key, List<Problem> into) {
    String stated = event.path(field).asText(expected);
    if (!ForeignEvents.word(stated).equals(expected)) {
      into.add(difference(field, stated, expected, key));
    }
  }

  private static void compareTimes(
      JsonNode event, String field, Instant expected, String key, List<Problem> into) {
    String stated = event.path(field).asText(expected.toString());
    if (!time(stated).equals(Optional.of(expected))) {
      into.add(difference(field, stated, expected.toString(), key));
    }
  }

  private static Problem difference(String field, String stated, String expected, String key) {
    return Problem.of(field, stated, new EventProblem.OtherThanFact(expected, key));
  }

  /** An instant to the millisecond, as facts hold it. */
  static Optional<Instant> time(String text) {
    try {
      return Optional.of(OffsetDateTime.parse(text).toInstant().truncatedTo(ChronoUnit.MILLIS));
    } catch (DateTimeException noTime) {
      return Optional.empty();
    }
  }
}
