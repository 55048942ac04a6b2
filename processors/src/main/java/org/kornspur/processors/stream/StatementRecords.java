package org.kornspur.processors.stream;

import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import org.kornspur.ingest.contract.Subject;
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
import org.kornspur.standing.ArgumentKind;
import org.kornspur.standing.SaidStatement;
import org.kornspur.standing.StatementArgument;

/** Statements in the public form that standings carry. */
public final class StatementRecords {

  private StatementRecords() {}

  static List<SaidStatement> write(List<Coded> statements) {
    return statements.stream().map(StatementRecords::write).toList();
  }

  static SaidStatement write(Coded statement) {
    return new SaidStatement(
        statement.code(),
        statement.arguments().stream()
            .map(argument -> write(argument.name(), argument.value()))
            .toList());
  }

  /** Statements of a standing. */
  public static List<Coded> read(List<SaidStatement> statements) {
    return statements.stream().map(StatementRecords::read).toList();
  }

  /** A statement of a standing. */
  public static Coded read(SaidStatement statement) {
    return new Coded(
        statement.getCode(),
        statement.getArguments().stream()
            .map(argument -> new Coded.Argument(argument.getName(), value(argument)))
            .toList());
  }

  private static StatementArgument write(String name, Value value) {
    StatementArgument.Builder argument = StatementArgument.newBuilder().setName(name);
    if (value instanceof Count count) {
      argument.setKind(ArgumentKind.COUNT).setNumber((double) count.count());
    } else if (value instanceof Amount amount) {
      argument.setKind(ArgumentKind.AMOUNT).setNumber(amount.number()).setUnit(amount.unit());
    } else if (value instanceof Day day) {
      argument.setKind(ArgumentKind.DAY).setText(day.day().toString());
    } else if (value instanceof Time time) {
      argument.setKind(ArgumentKind.TIME).setText(time.time().toString());
    } else if (value instanceof Term term) {
      argument.setKind(ArgumentKind.TERM).setText(term.name()).setUnit(term.type());
    } else if (value instanceof Text text) {
      argument.setKind(ArgumentKind.TEXT).setText(text.text());
    } else if (value instanceof OfSubject subject) {
      argument.setKind(ArgumentKind.SUBJECT).setText(subject.subject().toString());
    } else if (value instanceof Fact fact) {
      argument.setKind(ArgumentKind.FACT).setText(fact.factId());
    } else if (value instanceof Person person) {
      argument.setKind(ArgumentKind.PERSON).setText(person.personId());
    } else if (value instanceof Said said) {
      argument.setKind(ArgumentKind.STATEMENT).setStatement(write(said.said()));
    } else if (value instanceof Several several) {
      argument
          .setKind(ArgumentKind.LIST)
          .setList(several.values().stream().map(one -> write("", one)).toList());
    }
    return argument.build();
  }

  private static Value value(StatementArgument argument) {
    return switch (argument.getKind()) {
      case COUNT -> new Count(argument.getNumber().longValue());
      case AMOUNT -> new Amount(argument.getNumber(), argument.getUnit());
      case DAY -> new Day(LocalDate.parse(argument.getText()));
      case TIME -> new Time(Instant.parse(argument.getText()));
      case TERM -> new Term(argument.getUnit(), argument.getText());
      case SUBJECT -> new OfSubject(Subject.parse(argument.getText()));
      case FACT -> new Fact(argument.getText());
      case PERSON -> new Person(argument.getText());
      case STATEMENT -> new Said(read(argument.getStatement()));
      case LIST -> new Several(argument.getList().stream().map(StatementRecords::value).toList());
      case TEXT, UNKNOWN -> new Text(argument.getText() == null ? "" : argument.getText());
    };
  }
}
