package org.kornspur.ingest.text;

import java.util.Optional;
import java.util.stream.Collectors;
import org.kornspur.ingest.statement.Coded;
import org.kornspur.ingest.statement.Value;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.ingest.statement.Value.Count;
import org.kornspur.ingest.statement.Value.Day;
import org.kornspur.ingest.statement.Value.Fact;
import org.kornspur.ingest.statement.Value.OfSubject;
import org.kornspur.ingest.statement.Value.Person;
import org.kornspur.ingest.statement.Value.Said;
import org.kornspur.ingest.statement.Value.Several;
import org.kornspur.ingest.statement.Value.Term;
import org.kornspur.ingest.statement.Value.Text;
import org.kornspur.ingest.statement.Value.Time;

/**
 * Writes statements in one language. A pattern names the arguments of its statement: a count is a
 * number, so that plurals work; all else is written by the form of values, or is {@code absent}, by
 * which a branch can be chosen ({@code select}). A name with an ending is what else is known:
 *
 * <ul>
 *   <li>{@code Key}: the name of a term, or a recorded word as it is, to choose a branch by
 *   <li>{@code Count}: how many a list has
 *   <li>{@code Id}: the id of a subject alone
 * </ul>
 */
public record StatementWriter(TextBundle texts, ValueFormat form) {
  /** A statement; one without a text, as of a later release, by its code and arguments. */
  public String of(Coded statement) {
    return texts
        .find(form.key(statement))
        .map(pattern -> pattern.written(name -> argument(statement, name)))
        .orElseGet(() -> bare(statement));
  }

  private String bare(Coded statement) {
    return statement.code()
        + statement.arguments().stream()
            .map(argument -> argument.name() + " " + written(argument.value(), statement))
            .collect(Collectors.joining(", ", " (", ")"))
            .replace(" ()", "");
  }

  /** Null where the statement has none of this name. */
  private Object argument(Coded statement, String name) {
    Optional<Value> value = statement.argument(name);
    if (value.isPresent()) {
      return value.get() instanceof Count count ? count.count() : written(value.get(), statement);
    } else if (name.endsWith("Key")) {
      return statement.argument(without("Key", name)).map(StatementWriter::key).orElse(null);
    } else if (name.endsWith("Count")) {
      return statement.argument(without("Count", name)).map(StatementWriter::size).orElse(null);
    } else if (name.endsWith("Id")) {
      return statement.argument(without("Id", name)).map(this::id).orElse(null);
    }
    return null;
  }

  private static String without(String ending, String name) {
    return name.substring(0, name.length() - ending.length());
  }

  private static String key(Value value) {
    if (value instanceof Term term) {
      return term.name();
    }
    return value instanceof Text text ? text.text() : null;
  }

  private static Integer size(Value value) {
    return value instanceof Several several ? several.values().size() : null;
  }

  private String id(Value value) {
    return value instanceof OfSubject subject ? form.id(subject.subject()) : null;
  }

  private String written(Value value, Coded statement) {
    if (value instanceof Count count) {
      return form.count(count.count());
    } else if (value instanceof Amount amount) {
      return form.amount(amount);
    } else if (value instanceof Day day) {
      return form.day(day.day());
    } else if (value instanceof Time time) {
      return form.time(time.time());
    } else if (value instanceof Term term) {
      return form.term(term);
    } else if (value instanceof Text text) {
      return form.text(text.text(), statement);
    } else if (value instanceof OfSubject subject) {
      return form.subject(subject.subject());
    } else if (value instanceof Fact fact) {
      return form.fact(fact.factId());
    } else if (value instanceof Person person) {
      return form.person(person.personId());
    } else if (value instanceof Said said) {
      return of(said.said());
    }
    Several several = (Several) value;
    var parts = several.values().stream().map(one -> written(one, statement)).toList();
    return several.values().stream().anyMatch(Said.class::isInstance)
        ? form.clauses(parts)
        : form.list(parts);
  }
}
