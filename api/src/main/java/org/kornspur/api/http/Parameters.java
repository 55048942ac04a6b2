package org.kornspur.api.http;

import java.time.Instant;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.format.DateTimeParseException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.function.Consumer;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.problem.ParameterProblem;
import org.kornspur.api.problem.ProblemKind;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.intake.Problem;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.processors.ground.GeoPosition;

/**
 * Reads the parameters of one request and says all that is wrong with them at once. A parameter
 * that is wrong reads as if it were not given.
 */
public final class Parameters {
  private static final int LONGEST = 64;
  private static final String OF_A_LATER_VERSION = "UNKNOWN";
  private static final Pattern WHOLE = Pattern.compile("\\d{1,9}");
  private static final Pattern DECIMAL = Pattern.compile("\\d{1,9}(\\.\\d{1,9})?");

  private static final Pattern PLACE =
      Pattern.compile("(-?\\d{1,3}(?:\\.\\d{1,12})?),(-?\\d{1,2}(?:\\.\\d{1,12})?)");

  private final List<Problem> wrong = new ArrayList<>();
  private final Consumer<List<Problem>> answer;

  /** Refuses the request where any is wrong. */
  public Parameters() {
    this(Parameters::refuse);
  }

  Parameters(Consumer<List<Problem>> answer) {
    this.answer = answer;
  }

  /** A whole number within limits, both included. */
  public int whole(String name, String text, int otherwise, int least, int most) {
    return whole(name, text, least, most).orElse(otherwise);
  }

  /** A whole number within limits, both included; empty where it is not given. */
  public Optional<Integer> whole(String name, String text, int least, int most) {
    if (isAbsent(text)) {
      return Optional.empty();
    }
    if (WHOLE.matcher(text).matches()) {
      int number = Integer.parseInt(text);
      if (number >= least && number <= most) {
        return Optional.of(number);
      }
    }
    note(name, text, new ParameterProblem.WholeNumber(least, most));
    return Optional.empty();
  }

  /** Number of a page of a list, from 1; the first where it is not given. */
  public int page(String text) {
    return whole("page", text, 1, 1, 1_000_000);
  }

  /** Whether something is asked for; not, where it is not given. */
  public boolean yes(String name, String text) {
    if (isAbsent(text) || text.equals("false")) {
      return false;
    }
    if (!text.equals("true")) {
      note(name, text, new ParameterProblem.OneOf(List.of("true", "false")));
    }
    return true;
  }

  /** A number within limits, both included. */
  public double decimal(String name, String text, double otherwise, double least, double most) {
    if (isAbsent(text)) {
      return otherwise;
    }
    if (DECIMAL.matcher(text).matches()) {
      double number = Double.parseDouble(text);
      if (number >= least && number <= most) {
        return number;
      }
    }
    note(name, text, new ParameterProblem.Decimal(new Amount(least, ""), new Amount(most, "")));
    return otherwise;
  }

  /** Whether two parameters are given that mean nothing without each other. */
  public boolean together(String name, String text, String other, String otherText) {
    if (isAbsent(text) != isAbsent(otherText)) {
      String missing = isAbsent(text) ? name : other;
      note(missing, "", new ParameterProblem.Together(List.of(name, other)));
    }
    return !isAbsent(text) && !isAbsent(otherText);
  }

  /** An id or the beginning of one; empty where it is not given. */
  public Optional<String> id(String name, String text) {
    return text(name, text, LONGEST);
  }

  /** Text of so many characters at most; empty where it is not given. */
  public Optional<String> text(String name, String text, int mostCharacters) {
    if (isAbsent(text)) {
      return Optional.empty();
    }
    if (text.length() > mostCharacters) {
      note(name, text, new ParameterProblem.TooLong(mostCharacters));
      return Optional.empty();
    }
    return Optional.of(text);
  }

  /** Text of so many characters, which must be given; empty text where it is wrong. */
  public String text(String name, String text, int leastCharacters, int mostCharacters) {
    String given = text == null ? "" : text.strip();
    if (given.length() >= leastCharacters && given.length() <= mostCharacters) {
      return given;
    }
    note(name, given, new ParameterProblem.TextLength(leastCharacters, mostCharacters));
    return "";
  }

  /** A moment with its zone; empty where it is not given. */
  public Optional<Instant> instant(String name, String text) {
    if (isAbsent(text)) {
      return Optional.empty();
    }
    try {
      return Optional.of(OffsetDateTime.parse(text.strip()).toInstant());
    } catch (DateTimeParseException noTime) {
      note(name, text, new ParameterProblem.NoTime());
      return Optional.empty();
    }
  }

  /** A day of the calendar; empty where it is not given. */
  public Optional<LocalDate> day(String name, String text) {
    if (isAbsent(text)) {
      return Optional.empty();
    }
    try {
      return Optional.of(LocalDate.parse(text.strip()));
    } catch (DateTimeParseException noDay) {
      note(name, text, new ParameterProblem.NoDay());
      return Optional.empty();
    }
  }

  /** A crop or a source of pollen, as {@code crop:ID}; empty where it is not given. */
  public Optional<Subject> ground(String name, String text) {
    if (isAbsent(text)) {
      return Optional.empty();
    }
    if (text.matches("(crop|source):.{1,64}")) {
      return Optional.of(Subject.parse(text));
    }
    note(name, text, new ParameterProblem.NoGround());
    return Optional.empty();
  }

  /** Longitude and latitude in degrees, with a comma between; empty where it is not given. */
  public Optional<GeoPosition> place(String name, String text) {
    if (isAbsent(text)) {
      return Optional.empty();
    }
    Matcher degrees = PLACE.matcher(text.strip());
    if (degrees.matches()) {
      double lon = Double.parseDouble(degrees.group(1));
      double lat = Double.parseDouble(degrees.group(2));
      if (Math.abs(lon) <= 180 && Math.abs(lat) < 90) {
        return Optional.of(new GeoPosition(lon, lat));
      }
    }
    note(name, text, new ParameterProblem.NoPlace());
    return Optional.empty();
  }

  /** One value of a kind, in any case; empty where it is not given. */
  public <E extends Enum<E>> Optional<E> one(String name, String text, Class<E> kind) {
    if (isAbsent(text)) {
      return Optional.empty();
    }
    Optional<E> found =
        askedFor(kind).stream()
            .filter(value -> value.name().equals(text.toUpperCase(Locale.ROOT).replace('-', '_')))
            .findFirst();
    if (found.isEmpty()) {
      List<String> known = askedFor(kind).stream().map(Enum::name).toList();
      note(name, text, new ParameterProblem.OneOf(known));
    }
    return found;
  }

  /** Without what stands in for the values of later versions: nothing here is of that kind. */
  private static <E extends Enum<E>> List<E> askedFor(Class<E> kind) {
    return Arrays.stream(kind.getEnumConstants())
        .filter(value -> !value.name().equals(OF_A_LATER_VERSION))
        .toList();
  }

  /** Values of a kind, as several parameters or separated by commas. */
  public <E extends Enum<E>> Set<E> any(String name, List<String> texts, Class<E> kind) {
    Set<E> found = EnumSet.noneOf(kind);
    texts.stream()
        .flatMap(text -> Arrays.stream(text.split(",", -1)))
        .forEach(text -> one(name, text, kind).ifPresent(found::add));
    return found;
  }

  /**
   * To be called when all are read.
   *
   * @throws ApiProblem if any is wrong, but for a page, which says so itself
   */
  public void check() {
    if (!wrong.isEmpty()) {
      answer.accept(wrong);
    }
  }

  private static void refuse(List<Problem> wrong) {
    throw new ApiProblem(ProblemKind.INVALID_PARAMETER, wrong);
  }

  private void note(String name, String text, ParameterProblem reason) {
    wrong.add(Problem.of(name, text, reason));
  }

  private static boolean isAbsent(String text) {
    return text == null || text.isBlank();
  }
}
