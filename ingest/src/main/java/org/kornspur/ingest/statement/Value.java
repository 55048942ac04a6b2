package org.kornspur.ingest.statement;

import java.time.Instant;
import java.time.LocalDate;
import java.util.Collection;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.kornspur.ingest.contract.Subject;

/** One argument of a statement. */
public sealed interface Value {

  /** A whole number of things. */
  record Count(long count) implements Value {}

  /**
   * A measured or calculated number.
   *
   * @param unit as the contract and the rulebooks write it; empty for a number without
   */
  record Amount(double number, String unit) implements Value {
    public static Amount percent(double percent) {
      return new Amount(percent, "%");
    }

    public static Amount kilograms(double kg) {
      return new Amount(kg, "kg");
    }

    public static Amount grams(double g) {
      return new Amount(g, "g");
    }

    public static Amount metres(double m) {
      return new Amount(m, "m");
    }

    public static Amount squareMetres(double m2) {
      return new Amount(m2, "m2");
    }

    public static Amount percentagePoints(double points) {
      return new Amount(points, "percentage points");
    }
  }

  record Day(LocalDate day) implements Value {}

  record Time(Instant time) implements Value {}

  /** A constant of an enumeration, by the simple name of its type and its own. */
  record Term(String type, String name) implements Value {}

  /** Words or an id as somebody recorded them; never made by the program. */
  record Text(String text) implements Value {}

  record OfSubject(Subject subject) implements Value {}

  record Fact(String factId) implements Value {
    public static List<Fact> each(Collection<String> factIds) {
      return factIds.stream().map(Fact::new).toList();
    }
  }

  record Person(String personId) implements Value {}

  /** A statement within a statement. */
  record Said(Coded said) implements Value {}

  record Several(List<Value> values) implements Value {}

  /**
   * The value of a component of a statement's record.
   *
   * @return empty for an absent one
   * @throws IllegalArgumentException for a type that is no argument
   */
  static Optional<Value> of(Object component) {
    if (component instanceof Optional<?> optional) {
      return optional.flatMap(Value::of);
    }
    return Optional.of(present(component));
  }

  private static Value present(Object component) {
    if (component instanceof Value value) {
      return value;
    } else if (component instanceof Integer || component instanceof Long) {
      return new Count(((Number) component).longValue());
    } else if (component instanceof Double number) {
      return new Amount(number, "");
    } else if (component instanceof LocalDate day) {
      return new Day(day);
    } else if (component instanceof Instant time) {
      return new Time(time);
    } else if (component instanceof Enum<?> constant) {
      return new Term(constant.getDeclaringClass().getSimpleName(), constant.name());
    } else if (component instanceof String text) {
      return new Text(text);
    } else if (component instanceof Subject subject) {
      return new OfSubject(subject);
    } else if (component instanceof Statement statement) {
      return new Said(statement.coded());
    } else if (component instanceof Coded said) {
      return new Said(said);
    } else if (component instanceof Collection<?> several) {
      return new Several(several.stream().map(Value::present).toList());
    }
    throw new IllegalArgumentException("No argument of a statement: " + component);
  }

  /** This value, and all within it. */
  default Stream<Value> all() {
    if (this instanceof Several several) {
      return several.values().stream().flatMap(Value::all);
    }
    return this instanceof Said said ? said.said().values() : Stream.of(this);
  }
}
