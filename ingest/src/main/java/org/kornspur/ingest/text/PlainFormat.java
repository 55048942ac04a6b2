package org.kornspur.ingest.text;

import com.ibm.icu.text.ListFormatter;
import com.ibm.icu.text.NumberFormat;
import java.math.BigDecimal;
import java.math.MathContext;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.time.ZonedDateTime;
import java.time.format.DateTimeFormatter;
import java.time.format.FormatStyle;
import java.util.List;
import java.util.Map;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.statement.Coded;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.ingest.statement.Value.Term;

/**
 * Values as plain text: numbers and days as people of the language write them (Unicode CLDR), ids
 * as they are.
 *
 * <p>Texts by the key {@code amount.} and the unit, with hyphens for spaces, write an amount from
 * its {@code number} and the {@code written} number; without one the unit follows as it is.
 *
 * @param zone time zone in which times are shown
 * @param digits most significant digits of an amount
 */
public record PlainFormat(TextBundle texts, ZoneId zone, MathContext digits)
    implements ValueFormat {
  private static final String NO_BREAK_SPACE = "\u00a0";
  private static final int MOST_DECIMALS = 20;
  private static final double LONGEST_WRITTEN_OUT = 1e15;

  @Override
  public String count(long count) {
    return NumberFormat.getInstance(texts.locale()).format(count);
  }

  @Override
  public String amount(Amount amount) {
    String written = number(amount);
    if (amount.unit().isEmpty()) {
      return written;
    }
    String key = "amount." + amount.unit().replace(' ', '-');
    return texts.has(key)
        ? texts.written(key, Map.of("number", amount.number(), "written", written))
        : written + NO_BREAK_SPACE + amount.unit();
  }

  /** A number without unit may be a year or a code, so its digits stand together. */
  private String number(Amount amount) {
    double number = amount.number();
    if (!Double.isFinite(number) || Math.abs(number) >= LONGEST_WRITTEN_OUT) {
      return Double.toString(number);
    }
    BigDecimal rounded = BigDecimal.valueOf(number).round(digits).stripTrailingZeros();
    if (rounded.scale() > MOST_DECIMALS) {
      return Double.toString(number);
    }
    NumberFormat format = NumberFormat.getInstance(texts.locale());
    format.setMaximumFractionDigits(MOST_DECIMALS);
    format.setGroupingUsed(!amount.unit().isEmpty());
    return format.format(rounded);
  }

  @Override
  public String day(LocalDate day) {
    return DateTimeFormatter.ofLocalizedDate(FormatStyle.MEDIUM)
        .withLocale(texts.locale())
        .format(day);
  }

  /** Day, second and zone, as in 2 Jun 2025, 14:03:09 (UTC+02:00). */
  @Override
  public String time(Instant time) {
    ZonedDateTime local = time.atZone(zone);
    String offset = local.getOffset().equals(ZoneOffset.UTC) ? "" : local.getOffset().getId();
    return DateTimeFormatter.ofLocalizedDateTime(FormatStyle.MEDIUM)
            .withLocale(texts.locale())
            .format(local)
        + " (UTC"
        + offset
        + ")";
  }

  @Override
  public String term(Term term) {
    return texts.term(term.type(), term.name());
  }

  @Override
  public String text(String text, Coded within) {
    return text;
  }

  @Override
  public String subject(Subject subject) {
    return subject.id();
  }

  @Override
  public String id(Subject subject) {
    return subject.id();
  }

  @Override
  public String fact(String factId) {
    return factId;
  }

  @Override
  public String person(String personId) {
    return personId;
  }

  @Override
  public String list(List<String> parts) {
    return ListFormatter.getInstance(texts.locale()).format(parts);
  }
}
