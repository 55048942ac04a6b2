package org.kornspur.processors.stream;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.problem.Given;
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
import org.kornspur.processors.finding.BasisFinding;
import org.kornspur.processors.finding.ContractFinding;
import org.kornspur.standing.ArgumentKind;
import org.kornspur.standing.SaidStatement;
import org.kornspur.standing.StatementArgument;

class StatementRecordsTest {

  static List<Value> values() {
    Coded nested =
        new ContractFinding.BeyondLimits(
                List.of(
                    new ContractFinding.FactBeyond(
                        new Fact("f1"),
                        "field",
                        new Given.Figure(new Amount(9, "")).coded(),
                        new Coded("at-most-8", List.of()))))
            .coded();
    return List.of(
        new Count(0),
        new Count(Integer.MAX_VALUE),
        new Amount(-0.125, "%"),
        new Amount(Double.NaN, ""),
        new Day(LocalDate.parse("2024-02-29")),
        new Time(Instant.parse("2024-12-01T10:00:00.001Z")),
        new Term("Gate", "ORIGIN"),
        new Text(""),
        new Text("as \"recorded\"\n"),
        new OfSubject(Subject.source("S1")),
        new Fact("f1"),
        new Person("p-1"),
        new Said(nested),
        new Several(List.of()),
        new Several(List.of(new Count(1), new Several(List.of(new Said(nested))))));
  }

  @ParameterizedTest
  @MethodSource("values")
  void everyKindOfValueComesBackFromAvro(Value value) throws IOException {
    Coded said =
        new Coded(
            "test.kind", List.of(new Coded.Argument("a", value), new Coded.Argument("b", value)));

    assertThat(StatementRecords.read(throughAvro(StatementRecords.write(said)))).isEqualTo(said);
  }

  @Test
  void absentArgumentsStayAbsent() throws IOException {
    Coded said = new BasisFinding.NotJudged("StackOverflowError", Optional.empty()).coded();

    assertThat(StatementRecords.read(throughAvro(StatementRecords.write(said)))).isEqualTo(said);
    assertThat(said.argument("message")).isEmpty();
  }

  @Test
  void anArgumentOfAKindThatALaterVersionAddedIsItsText() {
    SaidStatement later =
        new SaidStatement(
            "test.later",
            List.of(
                StatementArgument.newBuilder()
                    .setName("a")
                    .setKind(ArgumentKind.UNKNOWN)
                    .setText("as it is")
                    .build()));

    assertThat(StatementRecords.read(later).argument("a")).contains(new Text("as it is"));
  }

  private static SaidStatement throughAvro(SaidStatement statement) throws IOException {
    return SaidStatement.getDecoder().decode(SaidStatement.getEncoder().encode(statement));
  }
}
