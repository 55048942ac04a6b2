package org.kornspur.api.web.form;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.format.DateTimeParseException;
import java.util.List;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.api.text.LocalFormat;
import org.kornspur.api.text.PageTexts;
import org.kornspur.api.text.TypedNumber;
import org.kornspur.ingest.json.AvroJson;
import org.kornspur.ingest.json.FactParser;
import org.kornspur.ingest.json.ReadResult;

/** What forms share that show what was typed before it is recorded. */
public final class CheckStep {
  private static final String CHECKED_AT = "checkedAt";
  private static final Duration LONGEST_THOUGHT = Duration.ofHours(12);

  private static final int MOST_DECIMALS = 9;

  private CheckStep() {}

  /** When it was first checked, so that the same page sent twice is the same fact. */
  public static Instant keyedIn(FormReader reader, Instant now) {
    try {
      Instant checked = Instant.parse(reader.value(CHECKED_AT));
      return checked.isAfter(now) || checked.isBefore(now.minus(LONGEST_THOUGHT)) ? now : checked;
    } catch (DateTimeParseException notCheckedYet) {
      return now;
    }
  }

  /** Whether a correction changes nothing but who wrote it down when, under which id and why. */
  public static boolean saysTheSame(ObjectNode fact, SpecificRecord corrected) {
    return FactParser.accept(fact) instanceof ReadResult.Fact now
        && body(AvroJson.write(now.fact())).equals(body(AvroJson.write(corrected)));
  }

  private static ObjectNode body(ObjectNode fact) {
    ObjectNode body = fact.deepCopy();
    body.withObjectProperty("header")
        .remove(List.of("factId", "recordedBy", "recordedAt", "correction"));
    return body;
  }

  /**
   * A value as a person reads it.
   *
   * @param texts of forms
   */
  public static String shown(Field field, LocalFormat form, PageTexts texts) {
    String value = field.value();
    if (value.isEmpty() || !field.faults().isEmpty()) {
      return value;
    }
    return switch (field.kind()) {
      case TIME -> form.minute(LocalDateTime.parse(value).atZone(form.zone()).toInstant());
      case DAY -> form.day(LocalDate.parse(value));
      case FLAG -> texts.of(Boolean.parseBoolean(value) ? "yes" : "no");
      case DECIMAL ->
          TypedNumber.of(value, form.language()) instanceof TypedNumber.Plain number
              ? form.number(number.value().doubleValue(), MOST_DECIMALS)
              : value;
      case CHOICE ->
          field.options().stream()
              .filter(option -> field.holds(option.value()))
              .map(Field.Option::label)
              .findFirst()
              .orElse(value);
      case TEXT, WHOLE, CORNERS, LINES -> value;
    };
  }
}
