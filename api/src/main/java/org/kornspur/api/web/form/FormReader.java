package org.kornspur.api.web.form;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import jakarta.ws.rs.core.MultivaluedMap;
import java.math.BigDecimal;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.kornspur.api.text.LocalFormat;
import org.kornspur.api.text.PageTexts;
import org.kornspur.api.text.TypedNumber;

/**
 * Reads a posted form into a fact as JSON. Numbers are read by the customs of the page's language
 * ({@link TypedNumber}); what is left empty is left out of the fact, and never becomes zero.
 */
public final class FormReader {
  /** Field of a form that holds the id of the fact. */
  public static final String FACT_ID = "header.factId";

  private static final Pattern ELEMENT = Pattern.compile("(\\w+)\\[(\\d+)]\\.(\\w+)");
  private static final Pattern CORNER =
      Pattern.compile("(-?\\d{1,3}(?:\\.\\d{1,17})?)[;, \\t]+(-?\\d{1,2}(?:\\.\\d{1,17})?)");

  private final MultivaluedMap<String, String> posted;
  private final LocalFormat form;
  private final PageTexts texts;
  private final Map<String, List<Field.Fault>> faults = new LinkedHashMap<>();

  public FormReader(MultivaluedMap<String, String> posted, LocalFormat form, PageTexts texts) {
    this.posted = posted;
    this.form = form;
    this.texts = texts;
  }

  /** What is wrong with what was typed, by field; of the last reading. */
  public Map<String, List<Field.Fault>> faults() {
    return faults;
  }

  /** What was typed into a field; empty where nothing was. */
  public String value(String name) {
    return Optional.ofNullable(posted.getFirst(name)).map(String::strip).orElse("");
  }

  /** Id of the fact that the form was made for, where it was posted with one. */
  Optional<String> factId() {
    return Optional.of(value(FACT_ID)).filter(id -> !id.isEmpty());
  }

  /** The fact as far as it can be read. */
  public ObjectNode fact(FormView<?> sheet, String recordedBy, Instant recordedAt) {
    ObjectNode fact = JsonNodeFactory.instance.objectNode();
    fact.put("type", sheet.form().type().contractName());
    ObjectNode header = fact.putObject("header");
    header.put("factId", value(FACT_ID));
    header.put("recordedBy", recordedBy);
    header.put("recordedAt", recordedAt.toString());
    sheet.corrects().ifPresent(id -> header.withObjectProperty("correction").put("supersedes", id));
    sheet.fixed().forEach(fact::put);
    sheet.fields().forEach(field -> read(field, fact));
    return fact;
  }

  private void read(Field field, ObjectNode fact) {
    String text = value(field.name());
    if (text.isEmpty()) {
      if (field.required()) {
        fault(field, texts.of("required"));
      }
      return;
    }
    switch (field.kind()) {
      case TEXT, CHOICE, DAY -> place(fact, field.name()).put(last(field.name()), text);
      case FLAG -> place(fact, field.name()).put(last(field.name()), Boolean.parseBoolean(text));
      case WHOLE, DECIMAL -> number(field, text, fact);
      case TIME -> time(field, text, fact);
      case CORNERS -> corners(field, text, fact);
      case LINES -> {
        ArrayNode lines = fact.putArray(field.name());
        text.lines().map(String::strip).filter(line -> !line.isEmpty()).forEach(lines::add);
      }
    }
  }

  private void number(Field field, String text, ObjectNode fact) {
    boolean isWhole = field.kind() == Field.Kind.WHOLE;
    TypedNumber typed =
        isWhole ? TypedNumber.whole(text, form.language()) : TypedNumber.of(text, form.language());
    if (!(typed instanceof TypedNumber.Plain plain)) {
      fault(
          field,
          typed instanceof TypedNumber.Ambiguous two
              ? isWhole
                  ? texts.of("thousandsParted", text, two.grouped())
                  : texts.of("ambiguousNumber", text, two.grouped(), two.decimal())
              : texts.of("notANumber", text));
      return;
    }
    BigDecimal number = plain.value();
    if (isWhole && number.stripTrailingZeros().scale() > 0) {
      fault(field, texts.of("notWhole", text));
      return;
    }
    if (field.least().filter(least -> number.doubleValue() < least).isPresent()) {
      fault(field, texts.of("tooSmall", text, form.number(field.least().get())));
      return;
    }
    if (field.most().filter(most -> number.doubleValue() > most).isPresent()) {
      fault(field, texts.of("tooLarge", text, form.number(field.most().get())));
      return;
    }
    ObjectNode at = place(fact, field.name());
    if (isWhole) {
      at.put(last(field.name()), number.toBigInteger());
    } else {
      at.put(last(field.name()), number);
    }
  }

  private void time(Field field, String text, ObjectNode fact) {
    try {
      Instant instant = LocalDateTime.parse(text).atZone(form.zone()).toInstant();
      place(fact, field.name()).put(last(field.name()), instant.toString());
    } catch (DateTimeException notATime) {
      fault(field, texts.of("notATime", text));
    }
  }

  private void corners(Field field, String text, ObjectNode fact) {
    ArrayNode corners = fact.putArray(field.name());
    for (String line : text.lines().map(String::strip).filter(l -> !l.isEmpty()).toList()) {
      Matcher corner = CORNER.matcher(line);
      if (!corner.matches()) {
        fault(field, texts.of("notACorner", line));
        return;
      }
      corners
          .addObject()
          .put("lon", new BigDecimal(corner.group(1)))
          .put("lat", new BigDecimal(corner.group(2)));
    }
  }

  private void fault(Field field, String text) {
    faults.computeIfAbsent(field.name(), name -> new ArrayList<>()).add(new Field.Fault(text));
  }

  /** The object that a field lies in; elements of a list come in order. */
  private static ObjectNode place(ObjectNode fact, String name) {
    Matcher element = ELEMENT.matcher(name);
    if (element.matches()) {
      ArrayNode list = fact.withArray(element.group(1));
      int index = Integer.parseInt(element.group(2));
      while (list.size() <= index) {
        list.addObject();
      }
      return (ObjectNode) list.get(index);
    }
    ObjectNode at = fact;
    String[] path = name.split("\\.", -1);
    for (int part = 0; part < path.length - 1; part++) {
      at = at.withObjectProperty(path[part]);
    }
    return at;
  }

  private static String last(String name) {
    return name.substring(name.lastIndexOf('.') + 1);
  }
}
