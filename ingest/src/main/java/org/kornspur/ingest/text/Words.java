package org.kornspur.ingest.text;

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
 * Writes statements in one language. An argument that chooses a branch of a pattern is its plain
 * text: the name of a term, {@code absent} where the statement has no such argument. A count is a
 * number, so that plurals work; all else is written by the form of values.
 */
public final class Words {
  private final Texts texts;
  private final ValueForm form;

  public Words(Texts texts, ValueForm form) {
    this.texts = texts;
    this.form = form;
  }

  /** A statement; one without a text, as of a later release, by its code and arguments. */
  public String of(Coded statement) {
    return texts
        .find(statement.code())
        .map(
            pattern ->
                pattern.written(
                    (name, selects) ->
                        statement
                            .argument(name)
                            .map(value -> argument(value, selects))
                            .orElse(null)))
        .orElseGet(() -> bare(statement));
  }

  private String bare(Coded statement) {
    return statement.code()
        + statement.arguments().stream()
            .map(argument -> argument.name() + " " + written(argument.value()))
            .collect(Collectors.joining(", ", " (", ")"))
            .replace(" ()", "");
  }

  private Object argument(Value value, boolean selects) {
    if (value instanceof Count count) {
      return count.count();
    } else if (selects && value instanceof Term term) {
      return term.name();
    } else if (selects && value instanceof Text text) {
      return text.text();
    }
    return written(value);
  }

  private String written(Value value) {
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
      return form.text(text.text());
    } else if (value instanceof OfSubject subject) {
      return form.subject(subject.subject());
    } else if (value instanceof Fact fact) {
      return form.fact(fact.factId());
    } else if (value instanceof Person person) {
      return form.person(person.personId());
    } else if (value instanceof Said said) {
      return of(said.said());
    }
    return form.list(((Several) value).values().stream().map(this::written).toList());
  }
}
