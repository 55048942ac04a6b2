package org.kornspur.ingest.file;

import java.time.DateTimeException;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.kornspur.ingest.intake.Problems;
import org.kornspur.ingest.problem.CellProblem;

/** In which order a file has the parts of dates with slashes, as in 03/04/2026. */
public enum DayOrder {
  DAY_FIRST,
  MONTH_FIRST;

  private static final Pattern ISO = Pattern.compile("(\\d{4})[-/](\\d{1,2})[-/](\\d{1,2})");
  private static final Pattern DOTS =
      Pattern.compile("(\\d{1,2})\\.\\s?(\\d{1,2})\\.\\s?(\\d{2}|\\d{4})");
  private static final Pattern SLASHES =
      Pattern.compile("(\\d{1,2})[/-](\\d{1,2})[/-](\\d{2}|\\d{4})");
  private static final Pattern WITH_TIME =
      Pattern.compile(
          "(.*\\d)(?:[T,]\\s?|\\s+)(\\d{1,2}):(\\d{2})(?::(\\d{2})(?:\\.\\d{1,9})?)?(?:\\s?Uhr)?");
  private static final Pattern WITH_OFFSET =
      Pattern.compile("\\d{4}-\\d{2}-\\d{2}T\\d{2}:\\d{2}.*(?:Z|[+-]\\d{2}(?::?\\d{2})?)");

  /** So that the day is the same in every zone. */
  private static final LocalTime OF_A_DAY_ALONE = LocalTime.NOON;

  /** What the dates of a file tell of their order, and how they are read with it. */
  static final class Evidence {
    private final Optional<DayOrder> said;
    private final ZoneId zone;
    private boolean dayFirst;
    private boolean monthFirst;

    /**
     * @param said what a person said of the file; empty where nothing
     * @param zone of times that have none
     */
    Evidence(Optional<DayOrder> said, ZoneId zone) {
      this.said = said;
      this.zone = zone;
    }

    /** Looks at a cell of a column of days or times. */
    void see(String text) {
      Matcher slashes = SLASHES.matcher(dayIn(text));
      if (slashes.matches()) {
        dayFirst |= Integer.parseInt(slashes.group(1)) > 12;
        monthFirst |= Integer.parseInt(slashes.group(2)) > 12;
      }
    }

    /** The order of the file; empty where its dates do not tell, or contradict each other. */
    Optional<DayOrder> order() {
      if (said.isPresent() || dayFirst == monthFirst) {
        return said;
      }
      return Optional.of(dayFirst ? DAY_FIRST : MONTH_FIRST);
    }

    /**
     * A day as JSON has it.
     *
     * @return empty where something is wrong; that is noted
     */
    Optional<String> day(String text, String path, Problems problems) {
      Matcher timed = WITH_TIME.matcher(text);
      if (timed.matches() && !text.endsWith("00:00") && !text.endsWith("00:00:00")) {
        problems.add(path, text, new CellProblem.DayAlone());
        return Optional.empty();
      }
      Optional<List<LocalDate>> read = read(dayIn(text), text, path, problems);
      if (read.isPresent() && read.get().isEmpty()) {
        problems.add(path, text, new CellProblem.NoDay());
        return Optional.empty();
      }
      return read.map(days -> days.get(0).toString());
    }

    /**
     * An instant as JSON has it; a time without zone is one of the zone, a day without time its
     * noon.
     *
     * @return empty where something is wrong; that is noted
     */
    Optional<String> instant(String text, String path, Problems problems) {
      if (WITH_OFFSET.matcher(text).matches()) {
        return Optional.of(text);
      }
      Optional<List<LocalDate>> read = read(dayIn(text), text, path, problems);
      if (read.isEmpty()) {
        return Optional.empty();
      } else if (read.get().isEmpty()) {
        return noTime(text, path, problems);
      }
      try {
        return local(LocalDateTime.of(read.get().get(0), timeIn(text)), text, path, problems);
      } catch (DateTimeException noTime) {
        return noTime(text, path, problems);
      }
    }

    private static Optional<String> noTime(String text, String path, Problems problems) {
      problems.add(path, text, new CellProblem.NoTime());
      return Optional.empty();
    }

    /** The instant of a local time, if there was one, and only one. */
    Optional<String> local(LocalDateTime time, String text, String path, Problems problems) {
      List<ZoneOffset> offsets = zone.getRules().getValidOffsets(time);
      if (offsets.size() == 1) {
        return Optional.of(time.toInstant(offsets.get(0)).toString());
      }
      problems.add(
          path,
          text,
          offsets.isEmpty()
              ? new CellProblem.SkippedTime(zone.getId())
              : new CellProblem.DoubledTime(zone.getId()));
      return Optional.empty();
    }

    /** The time that a workbook shows, as a day at its noon or with its time of day. */
    Optional<String> instant(LocalDateTime shown, String text, String path, Problems problems) {
      boolean isDayAlone = shown.toLocalTime().equals(LocalTime.MIDNIGHT);
      return local(
          isDayAlone ? shown.toLocalDate().atTime(OF_A_DAY_ALONE) : shown, text, path, problems);
    }

    private static String dayIn(String text) {
      Matcher timed = WITH_TIME.matcher(text);
      return timed.matches() ? timed.group(1).strip() : text;
    }

    private static LocalTime timeIn(String text) {
      Matcher timed = WITH_TIME.matcher(text);
      return timed.matches()
          ? LocalTime.of(
              Integer.parseInt(timed.group(2)),
              Integer.parseInt(timed.group(3)),
              timed.group(4) == null ? 0 : Integer.parseInt(timed.group(4)))
          : OF_A_DAY_ALONE;
    }

    /** The day, none where the text is no day; empty where something is noted. */
    private Optional<List<LocalDate>> read(
        String day, String text, String path, Problems problems) {
      Matcher iso = ISO.matcher(day);
      if (iso.matches()) {
        return Optional.of(date(iso.group(1), iso.group(2), iso.group(3)));
      }
      Matcher dots = DOTS.matcher(day);
      Matcher slashes = SLASHES.matcher(day);
      boolean isDots = dots.matches();
      if (!isDots && !slashes.matches()) {
        return Optional.of(List.of());
      }
      Matcher parts = isDots ? dots : slashes;
      if (parts.group(3).length() == 2) {
        problems.add(path, text, new CellProblem.YearOfTwoDigits());
        return Optional.empty();
      }
      Optional<DayOrder> order = isDots ? Optional.of(DAY_FIRST) : orderOf(parts);
      if (order.isEmpty()) {
        problems.add(path, text, new CellProblem.AmbiguousDay());
        return Optional.empty();
      }
      boolean first = order.get() == DAY_FIRST;
      return Optional.of(
          date(parts.group(3), parts.group(first ? 2 : 1), parts.group(first ? 1 : 2)));
    }

    private Optional<DayOrder> orderOf(Matcher parts) {
      if (said.isPresent()) {
        return said;
      }
      int first = Integer.parseInt(parts.group(1));
      int second = Integer.parseInt(parts.group(2));
      if (first == second) {
        return Optional.of(DAY_FIRST);
      } else if (first > 12 || second > 12) {
        return Optional.of(first > 12 ? DAY_FIRST : MONTH_FIRST);
      }
      return order();
    }

    private static List<LocalDate> date(String year, String month, String day) {
      try {
        return List.of(
            LocalDate.of(Integer.parseInt(year), Integer.parseInt(month), Integer.parseInt(day)));
      } catch (DateTimeException noDay) {
        return List.of();
      }
    }
  }
}
