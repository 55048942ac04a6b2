package org.kornspur.api.web.record;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import jakarta.ws.rs.core.MultivaluedHashMap;
import jakarta.ws.rs.core.MultivaluedMap;
import java.math.BigDecimal;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.LocalDateTime;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.StreamSupport;
import org.kornspur.api.text.LocalFormat;
import org.kornspur.api.web.form.Field;
import org.kornspur.api.web.form.FormParts;
import org.kornspur.api.web.form.FormReader;
import org.kornspur.api.web.form.FormView;

/**
 * Values between a fact as JSON and the fields of its form.
 *
 * @param form in which numbers and times are typed
 */
record FormValues(LocalFormat form) {
  private static final Pattern ROW = Pattern.compile("(\\w+)\\[(\\d{1,4})]\\.(\\w+)");

  /** A form with what a fact says; what it does not understand of the fact it leaves empty. */
  FormView<ContractForm> filled(FormView<ContractForm> sheet, JsonNode fact) {
    return sheet.mapping(field -> field.starting(text(field, fact)));
  }

  /** How many rows of a list a fact has. */
  static int rows(JsonNode fact, String list) {
    return fact.path(list).isArray() ? fact.path(list).size() : 0;
  }

  private String text(Field field, JsonNode fact) {
    JsonNode value =
        fact.at("/" + field.name().replace("].", "/").replace('[', '/').replace('.', '/'));
    if (value.isMissingNode() || value.isNull()) {
      return "";
    }
    return switch (field.kind()) {
      case WHOLE, DECIMAL ->
          value.isNumber() ? form.typed(new BigDecimal(value.asText())) : value.asText();
      case TIME -> local(value.asText());
      case CORNERS ->
          StreamSupport.stream(value.spliterator(), false)
              .map(corner -> plain(corner.path("lon")) + ", " + plain(corner.path("lat")))
              .collect(Collectors.joining("\n"));
      case LINES ->
          StreamSupport.stream(value.spliterator(), false)
              .map(JsonNode::asText)
              .collect(Collectors.joining("\n"));
      case TEXT, CHOICE, DAY, FLAG -> value.asText();
    };
  }

  /** Corners have a point in every language, because commas part them. */
  private static String plain(JsonNode number) {
    if (!number.isNumber()) {
      return number.asText();
    }
    BigDecimal value = new BigDecimal(number.asText());
    return (value.signum() == 0 ? BigDecimal.ZERO : value.stripTrailingZeros()).toPlainString();
  }

  private String local(String instant) {
    try {
      return LocalDateTime.ofInstant(Instant.parse(instant), form.zone()).toString();
    } catch (DateTimeException notATime) {
      return instant;
    }
  }

  /**
   * Puts back the moment of the fact that a form was filled with, where nobody changed it: an hour
   * that the clocks go through twice is one local time of two moments.
   */
  void keepMoment(ObjectNode made, FormReader reader, JsonNode filledWith) {
    String before = filledWith.at("/header/happenedAt").asText();
    if (!before.isEmpty() && reader.value(FormParts.HAPPENED_AT).equals(local(before))) {
      made.withObjectProperty("header").put("happenedAt", before);
    }
  }

  /** What was posted, with empty rows of lists left out and the others counted from 0. */
  static MultivaluedMap<String, String> withoutEmptyRows(MultivaluedMap<String, String> posted) {
    Map<String, Map<Integer, Map<String, List<String>>>> lists = new LinkedHashMap<>();
    MultivaluedMap<String, String> kept = new MultivaluedHashMap<>();
    posted.forEach(
        (name, values) -> {
          Matcher row = ROW.matcher(name);
          if (row.matches()) {
            lists
                .computeIfAbsent(row.group(1), list -> new TreeMap<>())
                .computeIfAbsent(Integer.parseInt(row.group(2)), at -> new LinkedHashMap<>())
                .put(row.group(3), values);
          } else {
            kept.put(name, values);
          }
        });
    lists.forEach(
        (list, rows) -> {
          int at = 0;
          for (Map<String, List<String>> row : rows.values()) {
            if (row.values().stream().flatMap(List::stream).allMatch(String::isBlank)) {
              continue;
            }
            for (Map.Entry<String, List<String>> cell : row.entrySet()) {
              kept.put(list + "[" + at + "]." + cell.getKey(), cell.getValue());
            }
            at++;
          }
        });
    return kept;
  }

  /** How many rows of a list were posted. */
  static int rows(MultivaluedMap<String, String> posted, String list) {
    return (int)
        posted.keySet().stream()
            .map(ROW::matcher)
            .filter(row -> row.matches() && row.group(1).equals(list))
            .map(row -> row.group(2))
            .distinct()
            .count();
  }
}
