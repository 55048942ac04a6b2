package org.kornspur.ingest.statement;

import java.lang.reflect.Method;
import java.lang.reflect.RecordComponent;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Stream;

/**
 * A statement as it is stored: its code and its arguments by name.
 *
 * @param code family and kind, as in {@code germination.mean-of-two}; it never changes its meaning
 * @param arguments in the order of the record's components; absent ones are left out
 */
public record Coded(String code, List<Argument> arguments) {

  /** One argument. */
  public record Argument(String name, Value value) {}

  private record Kind(String code, List<Method> components) {}

  private static final ClassValue<Kind> KINDS =
      new ClassValue<>() {
        @Override
        protected Kind computeValue(Class<?> type) {
          return kindOf(type);
        }
      };

  /** The stored form of a statement. */
  static Coded of(Statement statement) {
    Kind kind = KINDS.get(statement.getClass());
    List<Argument> arguments = new ArrayList<>(kind.components().size());
    for (Method component : kind.components()) {
      Value.of(valueOf(statement, component))
          .ifPresent(value -> arguments.add(new Argument(component.getName(), value)));
    }
    return new Coded(kind.code(), List.copyOf(arguments));
  }

  public static String codeOf(Class<? extends Statement> kind) {
    return KINDS.get(kind).code();
  }

  public Optional<Value> argument(String name) {
    return arguments.stream()
        .filter(argument -> argument.name().equals(name))
        .map(Argument::value)
        .findFirst();
  }

  /** Every value in it, those within lists and statements too. */
  public Stream<Value> values() {
    return arguments.stream().map(Argument::value).flatMap(Value::all);
  }

  private static Kind kindOf(Class<?> type) {
    if (!type.isRecord()) {
      throw new IllegalArgumentException(type.getName() + " is no record");
    }
    List<Method> components =
        Arrays.stream(type.getRecordComponents()).map(RecordComponent::getAccessor).toList();
    components.forEach(component -> component.setAccessible(true));
    if (type.getEnclosingClass() == null) {
      throw new IllegalArgumentException(type.getName() + " belongs to no family");
    }
    return new Kind(
        hyphened(family(type.getEnclosingClass())) + "." + hyphened(type.getSimpleName()),
        components);
  }

  /** That it is a finding need not be said in the code of each. */
  private static String family(Class<?> type) {
    return type.getSimpleName().replaceFirst("(?<=.)Finding$", "");
  }

  private static String hyphened(String name) {
    return name.replaceAll("(?<=[a-z0-9])(?=[A-Z])", "-").toLowerCase(Locale.ROOT);
  }

  private static Object valueOf(Statement statement, Method component) {
    try {
      return component.invoke(statement);
    } catch (ReflectiveOperationException unreadable) {
      throw new IllegalStateException("Cannot read " + component, unreadable);
    }
  }
}
