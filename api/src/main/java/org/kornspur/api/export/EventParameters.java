package org.kornspur.api.export;

import jakarta.ws.rs.core.MultivaluedMap;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.UUID;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.kornspur.api.export.EventIndex.Position;
import org.kornspur.api.export.epcis.EventQuery;
import org.kornspur.api.export.epcis.EventQuery.Match;
import org.kornspur.api.export.epcis.EventQuery.MatchedLists;
import org.kornspur.api.export.epcis.EventQuery.Span;
import org.kornspur.api.export.identity.EventId;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.problem.ParameterProblem;
import org.kornspur.api.problem.ProblemKind;
import org.kornspur.ingest.intake.Problem;

/**
 * The parameters of an event query, as the standard names them. Values are separated by commas or
 * bars. A parameter that is not known here is refused, because an answer that passed over a
 * condition would be wrong.
 */
final class EventParameters {
  private static final int PER_PAGE = 30;
  private static final int MOST_PER_PAGE = 1_000;
  private static final Pattern NUMBER = Pattern.compile("\\d{1,4}");
  private static final Pattern TOKEN = Pattern.compile("(-?\\d{1,19})_([0-9a-f]{1,16})");
  private static final List<String> OTHERS =
      List.of(
          "eventType",
          "EQ_action",
          "EQ_bizStep",
          "EQ_eventID",
          "GE_eventTime",
          "LT_eventTime",
          "GE_recordTime",
          "LT_recordTime",
          "perPage",
          "nextPageToken");

  private final Map<String, String> values = new TreeMap<>();
  private final List<Problem> problems = new ArrayList<>();

  EventParameters(MultivaluedMap<String, String> query) {
    Set<String> known = new LinkedHashSet<>(OTHERS);
    for (MatchedLists lists : MatchedLists.values()) {
      known.add(lists.parameter());
    }
    query.forEach(
        (name, given) -> {
          if (known.contains(name)) {
            values.put(name, String.join(",", given));
          } else {
            problems.add(
                Problem.of(
                    Problem.described(name),
                    given.get(0),
                    new ParameterProblem.OtherName(List.copyOf(known))));
          }
        });
  }

  /** Narrows the query further, as an address below a business step or event type does. */
  EventParameters with(String name, String value) {
    values.put(name, value);
    return this;
  }

  /**
   * What is asked.
   *
   * @throws ApiProblem if a parameter is wrong
   */
  EventQuery query(EventSearch search, SiteVocabulary vocabulary) {
    List<Match> matches = new ArrayList<>();
    for (MatchedLists lists : MatchedLists.values()) {
      if (values.containsKey(lists.parameter())) {
        matches.add(new Match(lists, search.namesOf(list(lists.parameter()))));
      }
    }
    EventQuery query =
        new EventQuery(
            set("eventType"),
            set("EQ_action"),
            set("EQ_bizStep").stream().map(vocabulary::inward).collect(Collectors.toSet()),
            new Span(time("GE_eventTime"), time("LT_eventTime")),
            new Span(time("GE_recordTime"), time("LT_recordTime")),
            matches);
    check();
    return query;
  }

  /** Single events that are asked for; empty where the query is by other things. */
  Optional<List<UUID>> eventIds() {
    return Optional.ofNullable(values.get("EQ_eventID"))
        .map(given -> list("EQ_eventID").flatMap(id -> EventId.uuidIn(id).stream()).toList());
  }

  int perPage() {
    String text = values.get("perPage");
    if (text == null) {
      return PER_PAGE;
    }
    if (NUMBER.matcher(text).matches()) {
      int number = Integer.parseInt(text);
      if (number >= 1 && number <= MOST_PER_PAGE) {
        return number;
      }
    }
    note("perPage", text, new ParameterProblem.WholeNumber(1, MOST_PER_PAGE));
    check();
    return PER_PAGE;
  }

  /** Where the page begins. */
  Position after(EventSearch search) {
    String text = values.get("nextPageToken");
    if (text == null) {
      return Position.START;
    }
    Matcher token = TOKEN.matcher(search.placeOf(text).orElse(""));
    if (token.matches()) {
      try {
        return new Position(
            Long.parseLong(token.group(1)), Long.parseUnsignedLong(token.group(2), 16));
      } catch (NumberFormatException tooLarge) {
        // falls through to the problem
      }
    }
    note("nextPageToken", text, new ParameterProblem.NoPageToken());
    check();
    return Position.START;
  }

  /** A place as text. */
  static String text(Position position) {
    return position.eventTimeMillis() + "_" + Long.toHexString(position.key());
  }

  private Optional<Instant> time(String name) {
    String text = values.get(name);
    if (text == null) {
      return Optional.empty();
    }
    try {
      return Optional.of(OffsetDateTime.parse(text.replace(' ', '+')).toInstant());
    } catch (DateTimeException noTime) {
      note(name, text, new ParameterProblem.NoTime());
      return Optional.empty();
    }
  }

  private Set<String> set(String name) {
    return new LinkedHashSet<>(list(name).toList());
  }

  private Stream<String> list(String name) {
    String text = values.get(name);
    return text == null
        ? Stream.empty()
        : Arrays.stream(text.split("[,|]", -1)).map(String::strip).filter(part -> !part.isEmpty());
  }

  private void note(String name, String text, ParameterProblem reason) {
    problems.add(Problem.of(name, text, reason));
  }

  private void check() {
    if (!problems.isEmpty()) {
      throw new ApiProblem(ProblemKind.INVALID_PARAMETER, problems);
    }
  }
}
