package org.kornspur.api.text;

import java.math.BigDecimal;
import java.math.MathContext;
import java.text.NumberFormat;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.time.ZonedDateTime;
import java.time.format.DateTimeFormatter;
import java.time.format.FormatStyle;
import java.time.temporal.TemporalAccessor;

/**
 * Writes dates, numbers and units as people of a language do (Unicode CLDR, as the Java runtime
 * holds it). A space that does not break stands between a number and its unit.
 *
 * @param zone time zone of the site, in which times are shown
 */
public record LocalFormat(Language language, ZoneId zone) {
  private static final String NO_BREAK_SPACE = "\u00a0";
  private static final int MOST_DECIMALS = 2;

  /** A day, as in 2 Jun 2025. */
  public String day(LocalDate day) {
    return written(day, DateTimeFormatter.ofLocalizedDate(FormatStyle.MEDIUM));
  }

  /** The day of an instant. */
  public String day(Instant instant) {
    return day(instant.atZone(zone).toLocalDate());
  }

  /** Day, minute and zone of an instant, as in 2 Jun 2025, 14:03 CEST. */
  public String minute(Instant instant) {
    ZonedDateTime local = instant.atZone(zone);
    return written(
            local, DateTimeFormatter.ofLocalizedDateTime(FormatStyle.MEDIUM, FormatStyle.SHORT))
        + NO_BREAK_SPACE
        + zoneOf(local);
  }

  /** The zone has a name of its own in summer; one that is a mere offset has none. */
  private String zoneOf(ZonedDateTime local) {
    ZoneOffset offset = local.getOffset();
    if (offset.equals(ZoneOffset.UTC) && zone.getRules().isFixedOffset()) {
      return "UTC";
    }
    return zone.normalized() instanceof ZoneOffset
        ? "UTC" + offset.getId()
        : written(local, DateTimeFormatter.ofPattern("z"));
  }

  /** Day, second and zone of an instant, as in 2 Jun 2025, 14:03:09 (UTC+02:00). */
  public String moment(Instant instant) {
    ZonedDateTime local = instant.atZone(zone);
    String offset = local.getOffset().equals(ZoneOffset.UTC) ? "" : local.getOffset().getId();
    return written(local, DateTimeFormatter.ofLocalizedDateTime(FormatStyle.MEDIUM))
        + " (UTC"
        + offset
        + ")";
  }

  /** A machine's form of the instant, for the {@code datetime} attribute of HTML. */
  public String machine(Instant instant) {
    return instant.toString();
  }

  /** A number with at most two decimals; with three digits that tell where it is below 1. */
  public String number(double value) {
    return Math.abs(value) < 1 ? small(value) : number(value, MOST_DECIMALS);
  }

  /** A whole number with its thousands parted. */
  public String count(int value) {
    return count((long) value);
  }

  /** A whole number with its thousands parted. */
  public String count(long value) {
    return NumberFormat.getIntegerInstance(language.locale()).format(value);
  }

  /** Kilograms. */
  public String kg(double massKg) {
    return number(massKg, Math.abs(massKg) < 100 ? MOST_DECIMALS : 0) + NO_BREAK_SPACE + "kg";
  }

  /** A value with its unit, which is one of the rulebooks' and facts', as {@code %} or kg. */
  public String measure(double value, String unit) {
    // a share of plants is read more easily for a hundred of them
    double shown = unit.equals("plants/plant") ? value * 100 : value;
    return number(shown) + NO_BREAK_SPACE + StatementTexts.in(language).unit(shown, unit);
  }

  /** A distance that was measured, to a decimal or more. */
  public String distance(double distanceM) {
    BigDecimal rounded = DistanceFormat.rounded(distanceM);
    return number(rounded.doubleValue(), rounded.scale());
  }

  /** A share between 0 and 1, in percent. */
  public String percent(double share) {
    return number(share * 100) + NO_BREAK_SPACE + "%";
  }

  private String small(double value) {
    BigDecimal rounded = BigDecimal.valueOf(value).round(new MathContext(3));
    return number(rounded.doubleValue(), Math.max(0, rounded.stripTrailingZeros().scale()));
  }

  /** A number with at most so many decimals. */
  public String number(double value, int mostDecimals) {
    NumberFormat format = NumberFormat.getNumberInstance(language.locale());
    format.setMaximumFractionDigits(mostDecimals);
    // a negative zero would be written with its sign
    return format.format(value + 0.0);
  }

  /** A number as it is typed: all its decimals, no thousands parted. */
  public String typed(BigDecimal number) {
    BigDecimal plain = number.signum() == 0 ? BigDecimal.ZERO : number.stripTrailingZeros();
    return plain.toPlainString().replace('.', language.decimalMark().sign());
  }

  /** A number as it is typed. */
  public String typed(double number) {
    return typed(BigDecimal.valueOf(number));
  }

  private String written(TemporalAccessor time, DateTimeFormatter formatter) {
    return formatter.withLocale(language.locale()).format(time);
  }
}
