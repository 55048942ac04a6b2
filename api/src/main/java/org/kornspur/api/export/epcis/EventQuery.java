package org.kornspur.api.export.epcis;

import com.fasterxml.jackson.databind.JsonNode;
import java.time.Instant;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import org.kornspur.ingest.contract.FactType;

/**
 * What is asked of events.
 *
 * <p>Source: EPCIS 2.0, section 8.2.7.1, "SimpleEventQuery", for the meaning of the parameters.
 *
 * @param eventTypes {@code eventType}; empty for all
 * @param actions {@code EQ_action}; empty for all; an event without action then matches none
 * @param bizSteps {@code EQ_bizStep}; empty for all
 * @param eventTime {@code GE_eventTime} and {@code LT_eventTime}
 * @param recordTime {@code GE_recordTime} and {@code LT_recordTime}
 * @param matches {@code MATCH_…}: each must match
 */
public record EventQuery(
    Set<String> eventTypes,
    Set<String> actions,
    Set<String> bizSteps,
    Span eventTime,
    Span recordTime,
    List<Match> matches) {

  /** From, included, to, not included; either may be open. */
  public record Span(Optional<Instant> from, Optional<Instant> to) {

    boolean holds(long epochMillis) {
      return (from.isEmpty() || epochMillis >= ceiling(from.get()))
          && (to.isEmpty() || epochMillis < ceiling(to.get()));
    }

    /** Facts are kept to the millisecond; a bound between two of them lies at the later one. */
    private static long ceiling(Instant bound) {
      long millis = bound.toEpochMilli();
      return bound.getNano() % 1_000_000 == 0 ? millis : millis + 1;
    }
  }

  /** That one of the names stands in one of the lists. */
  public record Match(MatchedLists lists, Set<String> names) {}

  /** Which lists of an event a {@code MATCH_} parameter looks into. */
  public enum MatchedLists {
    MATCH_EPC("MATCH_epc", List.of("epcList", "childEPCs"), List.of()),
    MATCH_INPUT_EPC("MATCH_inputEPC", List.of("inputEPCList"), List.of()),
    MATCH_OUTPUT_EPC("MATCH_outputEPC", List.of("outputEPCList"), List.of()),
    MATCH_ANY_EPC(
        "MATCH_anyEPC",
        List.of(
            "epcList",
            "childEPCs",
            "inputEPCList",
            "outputEPCList",
            "parentID",
            "transformationID"),
        List.of()),
    MATCH_EPC_CLASS("MATCH_epcClass", List.of(), List.of("quantityList", "childQuantityList")),
    MATCH_INPUT_EPC_CLASS("MATCH_inputEPCClass", List.of(), List.of("inputQuantityList")),
    MATCH_OUTPUT_EPC_CLASS("MATCH_outputEPCClass", List.of(), List.of("outputQuantityList")),
    MATCH_ANY_EPC_CLASS(
        "MATCH_anyEPCClass",
        List.of(),
        List.of("quantityList", "childQuantityList", "inputQuantityList", "outputQuantityList"));

    private final String parameter;
    private final List<String> names;
    private final List<String> quantities;

    MatchedLists(String parameter, List<String> names, List<String> quantities) {
      this.parameter = parameter;
      this.names = names;
      this.quantities = quantities;
    }

    /** The parameter as the standard writes it. */
    public String parameter() {
      return parameter;
    }

    private Stream<String> in(JsonNode event) {
      Stream<String> single = names.stream().flatMap(list -> texts(event.path(list)));
      Stream<String> classes =
          quantities.stream()
              .flatMap(list -> stream(event.path(list)))
              .map(element -> element.path("epcClass").asText());
      return Stream.concat(single, classes);
    }

    private static Stream<String> texts(JsonNode node) {
      return node.isTextual() ? Stream.of(node.textValue()) : stream(node).map(JsonNode::asText);
    }

    private static Stream<JsonNode> stream(JsonNode list) {
      return list.isArray() ? list.valueStream() : Stream.empty();
    }
  }

  /** Fact types whose events can match. */
  public Set<FactType> factTypes() {
    Set<FactType> types = EnumSet.noneOf(FactType.class);
    for (FactType type : FactType.values()) {
      if (matches(EventShape.of(type))) {
        types.add(type);
      }
    }
    return types;
  }

  private boolean matches(EventShape shape) {
    return (eventTypes.isEmpty() || eventTypes.contains(shape.type().word()))
        && (bizSteps.isEmpty()
            || bizSteps.stream()
                .anyMatch(asked -> ForeignEvents.word(asked).equals(shape.bizStep())))
        && (actions.isEmpty()
            || shape.action().filter(action -> actions.contains(action.name())).isPresent());
  }

  /** Whether the times, in milliseconds of the epoch, are asked for. */
  public boolean holdsMillis(long happenedAt, long recordedAt) {
    return eventTime.holds(happenedAt) && recordTime.holds(recordedAt);
  }

  /** Whether an event names what is asked for. */
  public boolean names(JsonNode event) {
    return matches.stream()
        .allMatch(match -> match.lists().in(event).anyMatch(match.names()::contains));
  }
}
