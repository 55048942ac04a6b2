package org.kornspur.ingest.file;

import java.time.LocalTime;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.regex.MatchResult;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.apache.avro.LogicalTypes;
import org.apache.avro.Schema;
import org.kornspur.contract.GeoPoint;
import org.kornspur.ingest.intake.Problems;
import org.kornspur.ingest.problem.CellProblem;
import org.kornspur.ingest.problem.Given;
import org.kornspur.ingest.sheet.SheetCell;

/**
 * Turns a cell of a person's table into the text that the other tables of facts have: numbers with
 * a point, days and instants in ISO 8601, choices in the contract's words. What could be read in
 * two ways is noted and not guessed.
 */
final class TableCells {
  private static final int MOST_DIGITS = 15;
  private static final Pattern NUMBER_IN_LIST = Pattern.compile("[^;=/\\s]+");

  /** What does not stand first in an element of a list, as the mass of a lot does not. */
  private static final Pattern AMOUNT_IN_LIST = Pattern.compile("(?<=[=/\\s])[^;=/\\s]+");

  private final DecimalMark.Evidence numbers;
  private final DayOrder.Evidence days;
  private final List<TableWords> languages;
  private final Map<Schema, Map<String, String>> choices = new HashMap<>();

  TableCells(DecimalMark.Evidence numbers, DayOrder.Evidence days, List<TableWords> languages) {
    this.numbers = numbers;
    this.days = days;
    this.languages = languages;
  }

  /** Looks at a cell for what it tells of all others. */
  void see(Schema schema, SheetCell cell) {
    if (cell instanceof SheetCell.Text text) {
      if (isDay(schema) || isInstant(schema)) {
        days.see(text.text());
      } else if (isNumber(schema)) {
        numbers.see(text.text());
      } else if (hasAmounts(schema)) {
        AMOUNT_IN_LIST.matcher(text.text()).results().map(MatchResult::group).forEach(numbers::see);
      }
    }
  }

  /** The text; empty where the cell is empty, or something was noted. */
  Optional<String> read(Schema schema, SheetCell cell, String path, Problems problems) {
    if (cell instanceof SheetCell.Empty) {
      return Optional.empty();
    } else if (cell instanceof SheetCell.Formula) {
      problems.add(path, new Given.Formula(), new CellProblem.Formula());
      return Optional.empty();
    } else if (cell instanceof SheetCell.Fault fault) {
      problems.add(path, fault.code(), new CellProblem.ErrorValue());
      return Optional.empty();
    } else if (cell instanceof SheetCell.Unfit unfit) {
      problems.add(path, unfit.given(), unfit.why());
      return Optional.empty();
    } else if (cell instanceof SheetCell.Moment moment) {
      return moment(schema, moment, path, problems);
    } else if (cell instanceof SheetCell.Number number) {
      return number(schema, number, path, problems);
    }
    return text(schema, cell.shown(), path, problems);
  }

  private Optional<String> text(Schema schema, String text, String path, Problems problems) {
    if (isInstant(schema)) {
      return days.instant(text, path, problems);
    } else if (isDay(schema)) {
      return days.day(text, path, problems);
    } else if (isNumber(schema)) {
      return numbers.number(text, path, problems);
    }
    return switch (schema.getType()) {
      case ENUM, BOOLEAN ->
          Optional.of(
              choices
                  .computeIfAbsent(schema, this::words)
                  .getOrDefault(HeaderMatcher.normal(text), text));
      case ARRAY -> list(schema, text, path, problems);
      default -> Optional.of(text);
    };
  }

  private Optional<String> moment(
      Schema schema, SheetCell.Moment moment, String path, Problems problems) {
    if (isInstant(schema)) {
      return days.instant(moment.time(), moment.shown(), path, problems);
    } else if (!isDay(schema)) {
      problems.add(path, moment.shown(), new CellProblem.TakenForDate());
      return Optional.empty();
    } else if (!moment.time().toLocalTime().equals(LocalTime.MIDNIGHT)) {
      problems.add(path, moment.shown(), new CellProblem.DayAlone());
      return Optional.empty();
    }
    return Optional.of(moment.time().toLocalDate().toString());
  }

  private static Optional<String> number(
      Schema schema, SheetCell.Number number, String path, Problems problems) {
    if (isInstant(schema) || isDay(schema)) {
      problems.add(path, number.shown(), new CellProblem.NoDate());
      return Optional.empty();
    } else if (number.number().precision() - number.number().scale() > MOST_DIGITS) {
      problems.add(path, number.shown(), new CellProblem.TooManyDigits());
      return Optional.empty();
    }
    return Optional.of(number.shown());
  }

  /** A list in one cell, each number of it with a point. */
  private Optional<String> list(Schema schema, String text, String path, Problems problems) {
    int before = problems.count();
    String amounts = hasAmounts(schema) ? amounts(text, path, problems) : text;
    String read =
        NUMBER_IN_LIST
            .matcher(amounts)
            .replaceAll(
                part ->
                    part.group().indexOf(',') < 0
                        ? Matcher.quoteReplacement(part.group())
                        : plain(part, path, problems));
    return problems.count() == before ? Optional.of(read) : Optional.empty();
  }

  private String amounts(String text, String path, Problems problems) {
    return AMOUNT_IN_LIST
        .matcher(text)
        .replaceAll(
            part ->
                DecimalMark.POINT.isAmbiguous(part.group())
                    ? plain(part, path, problems)
                    : Matcher.quoteReplacement(part.group()));
  }

  private String plain(MatchResult part, String path, Problems problems) {
    return Matcher.quoteReplacement(
        numbers.number(part.group(), path, problems).orElse(part.group()));
  }

  /** The constants of a choice by their words; a word of two constants is none. */
  private Map<String, String> words(Schema schema) {
    boolean isFlag = schema.getType() == Schema.Type.BOOLEAN;
    String kind = isFlag ? "Flag" : schema.getName();
    Map<String, String> words = new HashMap<>();
    for (String constant : isFlag ? List.of("true", "false") : schema.getEnumSymbols()) {
      for (TableWords language : languages) {
        words.merge(
            HeaderMatcher.normal(language.choice(kind, constant)),
            constant,
            (one, other) -> one.equals(other) ? one : "");
      }
    }
    words.values().removeIf(String::isEmpty);
    for (String constant : isFlag ? List.of("true", "false") : schema.getEnumSymbols()) {
      words.put(constant.toLowerCase(Locale.ROOT), constant);
    }
    return words;
  }

  /** Whether it is a list of records with amounts; degrees of a corner are never thousands. */
  private static boolean hasAmounts(Schema schema) {
    return schema.getType() == Schema.Type.ARRAY
        && schema.getElementType().getType() == Schema.Type.RECORD
        && !schema.getElementType().getName().equals(GeoPoint.getClassSchema().getName());
  }

  private static boolean isInstant(Schema schema) {
    return schema.getLogicalType() instanceof LogicalTypes.TimestampMillis;
  }

  private static boolean isDay(Schema schema) {
    return schema.getLogicalType() instanceof LogicalTypes.Date;
  }

  private static boolean isNumber(Schema schema) {
    return schema.getLogicalType() == null
        && (schema.getType() == Schema.Type.INT || schema.getType() == Schema.Type.DOUBLE);
  }
}
