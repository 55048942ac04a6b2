package org.kornspur.ingest.statement;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;

import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.EdgeCasesMode;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.Tuple;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.kornspur.ingest.contract.Subject;
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

class StatementJsonTest {
  private static final int DEEPEST = 3;

  /** What a test says. */
  private sealed interface TestFinding extends Statement {
    record EverythingAtOnce(
        int whole,
        long large,
        double plain,
        Amount amount,
        LocalDate day,
        Instant time,
        Subject.Kind term,
        String text,
        Subject subject,
        Fact fact,
        Person person,
        Statement statement,
        List<Fact> several,
        Optional<Integer> present,
        Optional<Integer> absent)
        implements TestFinding {}

    record Nothing() implements TestFinding {}

    record Wrong(Object value) implements TestFinding {}
  }

  /** One of each kind of value. */
  private static final TestFinding EVERYTHING =
      new TestFinding.EverythingAtOnce(
          3,
          5_000_000_000L,
          0.5,
          Amount.percent(92),
          LocalDate.parse("2024-07-15"),
          Instant.parse("2024-12-01T10:00:00.001Z"),
          Subject.Kind.LOT,
          "dressing \"X\"",
          Subject.lot("L1"),
          new Fact("f1"),
          new Person("p-1"),
          new TestFinding.Nothing(),
          List.of(new Fact("f2"), new Fact("f3")),
          Optional.of(7),
          Optional.empty());

  @Test
  void everyKindOfValueIsWrittenAsItIsDescribed() {
    assertThat(StatementJson.write(List.of(EVERYTHING.coded())))
        .isEqualTo(
            """
            [{"code":"test.everything-at-once","arguments":{\
            "whole":3,\
            "large":5000000000,\
            "plain":{"amount":0.5,"unit":""},\
            "amount":{"amount":92.0,"unit":"%"},\
            "day":{"day":"2024-07-15"},\
            "time":{"time":"2024-12-01T10:00:00.001Z"},\
            "term":{"term":"LOT","of":"Kind"},\
            "text":"dressing \\"X\\"",\
            "subject":{"subject":"lot:L1"},\
            "fact":{"fact":"f1"},\
            "person":{"person":"p-1"},\
            "statement":{"code":"test.nothing","arguments":{}},\
            "several":[{"fact":"f2"},{"fact":"f3"}],\
            "present":7}}]""");
  }

  @Test
  void whatIsWrittenIsReadBack() {
    List<Coded> said = List.of(EVERYTHING.coded(), new TestFinding.Nothing().coded());

    assertThat(StatementJson.read(StatementJson.write(said))).isEqualTo(said);
    assertThat(StatementJson.read(StatementJson.write(List.of()))).isEmpty();
  }

  @Property(tries = 300, edgeCases = EdgeCasesMode.NONE)
  void anyStatementIsReadBack(@ForAll("statements") List<Coded> statements) {
    assertThat(StatementJson.read(StatementJson.write(statements))).isEqualTo(statements);
  }

  @ParameterizedTest
  @ValueSource(strings = {"", "{}", "5", "\"\"", "[", "[5]", "[{}]", "[{\"code\":5}]"})
  void whatIsNoListOfStatementsIsRefused(String text) {
    assertThatIllegalArgumentException().isThrownBy(() -> StatementJson.read(text));
  }

  @Test
  void argumentsAreFoundByName() {
    Coded coded = EVERYTHING.coded();

    assertThat(coded.code()).isEqualTo(Coded.codeOf(TestFinding.EverythingAtOnce.class));
    assertThat(coded.argument("whole")).contains(new Count(3));
    assertThat(coded.argument("absent")).isEmpty();
    assertThat(coded.values())
        .as("those within lists too")
        .contains(new Fact("f1"), new Fact("f2"), new Fact("f3"));
  }

  @Test
  void aComponentOfAnotherTypeIsNoArgument() {
    assertThatIllegalArgumentException()
        .isThrownBy(() -> new TestFinding.Wrong(new Object()).coded())
        .withMessageContaining("No argument of a statement");
  }

  @Provide
  Arbitrary<List<Coded>> statements() {
    return statement(0).list().ofMaxSize(3);
  }

  private static Arbitrary<Coded> statement(int depth) {
    Arbitrary<String> name = Arbitraries.strings().alpha().ofMinLength(1).ofMaxLength(8);
    return Combinators.combine(
            Arbitraries.strings().alpha().withChars(".-").ofMinLength(1).ofMaxLength(20),
            Arbitraries.maps(name, value(depth)).ofMaxSize(4))
        .as(
            (code, arguments) ->
                new Coded(
                    code,
                    arguments.entrySet().stream()
                        .map(entry -> new Coded.Argument(entry.getKey(), entry.getValue()))
                        .toList()));
  }

  private static Arbitrary<Value> value(int depth) {
    Arbitrary<Value> plain =
        Arbitraries.oneOf(
            Arbitraries.longs().map(Count::new),
            Combinators.combine(
                    Arbitraries.oneOf(
                        Arbitraries.doubles(),
                        Arbitraries.of(Double.NaN, Double.POSITIVE_INFINITY, -0.0)),
                    Arbitraries.of("", "%", "plants/m2"))
                .as(Amount::new),
            Arbitraries.longs()
                .between(-100_000, 100_000)
                .map(days -> new Day(LocalDate.ofEpochDay(days))),
            Arbitraries.longs()
                .between(-1_000_000_000_000L, 4_000_000_000_000L)
                .map(millis -> new Time(Instant.ofEpochMilli(millis))),
            Arbitraries.strings().ascii().map(text -> new Term("Kind", text)),
            Arbitraries.strings().ofMaxLength(20).map(Text::new),
            Arbitraries.strings().alpha().ofMinLength(1).map(id -> new OfSubject(Subject.lot(id))),
            Arbitraries.strings().ascii().map(Fact::new),
            Arbitraries.strings().ascii().map(Person::new));
    if (depth == DEEPEST) {
      return plain;
    }
    return Arbitraries.frequencyOf(
        Tuple.of(6, plain),
        Tuple.of(1, Arbitraries.lazy(() -> statement(depth + 1)).map(Said::new)),
        Tuple.of(
            1, Arbitraries.lazy(() -> value(depth + 1)).list().ofMaxSize(3).map(Several::new)));
  }
}
