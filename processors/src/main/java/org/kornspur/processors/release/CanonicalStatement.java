package org.kornspur.processors.release;

import java.util.List;
import java.util.stream.Collectors;
import org.kornspur.ingest.statement.Coded;
import org.kornspur.ingest.statement.Value;

/** Statements in the canonical text; {@link CanonicalDossier} describes it. */
final class CanonicalStatement {

  private CanonicalStatement() {}

  static String all(List<Coded> statements) {
    return statements.stream().map(CanonicalStatement::one).collect(Collectors.joining(" "));
  }

  private static String one(Coded statement) {
    return statement.arguments().stream()
        .map(argument -> argument.name() + "=" + value(argument.value()))
        .collect(Collectors.joining(";", statement.code() + "(", ")"));
  }

  private static String value(Value value) {
    if (value instanceof Value.Count count) {
      return Long.toString(count.count());
    } else if (value instanceof Value.Amount amount) {
      return (CanonicalDossier.number(amount.number()) + " " + amount.unit()).strip();
    } else if (value instanceof Value.Day day) {
      return day.day().toString();
    } else if (value instanceof Value.Time time) {
      return time.time().toString();
    } else if (value instanceof Value.Term term) {
      return term.type() + "." + term.name();
    } else if (value instanceof Value.OfSubject subject) {
      return subject.subject().toString();
    } else if (value instanceof Value.Fact fact) {
      return "fact:" + fact.factId();
    } else if (value instanceof Value.Person person) {
      return "person:" + person.personId();
    } else if (value instanceof Value.Said said) {
      return one(said.said());
    } else if (value instanceof Value.Several several) {
      return several.values().stream()
          .map(CanonicalStatement::value)
          .collect(Collectors.joining(",", "[", "]"));
    }
    return quoted(((Value.Text) value).text());
  }

  private static String quoted(String text) {
    return '"' + text.replace("\\", "\\\\").replace("\"", "\\\"") + '"';
  }
}
