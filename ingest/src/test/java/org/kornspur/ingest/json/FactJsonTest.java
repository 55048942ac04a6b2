package org.kornspur.ingest.json;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.time.Instant;
import java.util.List;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.apache.avro.specific.SpecificRecord;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.kornspur.contract.Dispatch;
import org.kornspur.contract.GerminationTest;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.intake.InEnglish;
import org.kornspur.ingest.intake.Problem;

class FactJsonTest {

  private static final String HEADER =
      """
      "header": {"factId": "f-1", "recordedBy": "lab-03",
        "happenedAt": "2024-09-02T10:00:00+02:00", "recordedAt": "2024-09-02T08:05:00.123456Z",
        "sourceDocument": "report 24-117"}""";

  private static final String GERMINATION =
      """
      {"type": "GerminationTest", %s,
       "lotId": "F1-24-007", "sampleId": "S-24-0311", "laboratoryId": "lab-north",
       "replicates": [{"seeds": 100, "normalSeedlings": 93}, {"seeds": 100, "normalSeedlings": 95}]}
      """
          .formatted(HEADER);

  @Provide
  Arbitrary<SpecificRecord> facts() {
    return AnyFact.ofAnyType();
  }

  @Property(tries = 1000)
  void everyFactComesBackFromItsJson(@ForAll("facts") SpecificRecord fact) throws IOException {
    String text = AvroJson.write(fact).toString();

    ReadResult read = FactJson.read(JsonText.parse(text));

    assertThat(read).isEqualTo(new ReadResult.Fact(fact));
  }

  @ParameterizedTest
  @EnumSource(FactType.class)
  void everyTypeIsReachedByItsName(FactType type) {
    ObjectNode json = AvroJson.write(AnyFact.of(type).sample());

    assertThat(json.get("type").textValue()).isEqualTo(type.contractName());
    assertThat(FactJson.read(json)).isInstanceOf(ReadResult.Fact.class);
  }

  @Property(tries = 500)
  void anyBrokenTextIsRefusedAndNothingIsThrown(
      @ForAll("facts") SpecificRecord fact, @ForAll int place, @ForAll char inserted) {
    String text = AvroJson.write(fact).toString();
    int at = Math.floorMod(place, text.length());

    for (String broken :
        List.of(
            text.substring(0, at),
            text.substring(0, at) + inserted + text.substring(at),
            text.substring(0, at) + inserted + text.substring(at + 1),
            text.substring(at) + text.substring(0, at))) {
      assertThat(FactParser.accept(broken)).isNotNull();
    }
    assertThat(FactParser.accept(text.substring(0, at))).isInstanceOf(ReadResult.Refused.class);
  }

  @Property(tries = 1000)
  void randomBytesAreRefused(@ForAll byte[] bytes) {
    assertThat(FactParser.accept(bytes)).isInstanceOf(ReadResult.Refused.class);
  }

  @Property(tries = 500)
  void aFactWithAFieldReplacedByAnythingNeverThrows(
      @ForAll("facts") SpecificRecord fact, @ForAll int which, @ForAll("strange") String strange)
      throws IOException {
    ObjectNode json = AvroJson.write(fact);
    List<String> names = new java.util.ArrayList<>();
    json.fieldNames().forEachRemaining(names::add);
    json.set(names.get(Math.floorMod(which, names.size())), JsonText.parse(strange));

    assertThat(FactParser.accept(json)).isNotNull();
  }

  @Provide
  Arbitrary<String> strange() {
    return Arbitraries.of(
        "null",
        "true",
        "-1",
        "1e308",
        "1e999",
        "99999999999999999999999999",
        "0.1",
        "\"\"",
        "\"NaN\"",
        "[]",
        "[null]",
        "[[[[]]]]",
        "{}",
        "{\"\":{}}",
        "\"2024-02-30\"",
        "\"\\u202e\\ud800\"");
  }

  @Test
  void readsTheExampleWithItsZoneAndToTheMillisecond() {
    ReadResult read = FactParser.accept(GERMINATION);

    GerminationTest test = (GerminationTest) ((ReadResult.Fact) read).fact();
    assertThat(test.getHeader().getHappenedAt()).isEqualTo(Instant.parse("2024-09-02T08:00:00Z"));
    assertThat(test.getHeader().getRecordedAt())
        .isEqualTo(Instant.parse("2024-09-02T08:05:00.123Z"));
    assertThat(test.getReplicates()).hasSize(2);
    assertThat(test.getRetestOf()).isNull();
  }

  @Test
  void aFieldWithADefaultMayBeLeftOut() {
    ReadResult read =
        FactParser.accept(
            "{\"type\":\"Dispatch\","
                + HEADER
                + ",\"lotId\":\"L1\",\"customerId\":\"E1\",\"massKg\":25}");

    assertThat(((Dispatch) ((ReadResult.Fact) read).fact()).getLabelNumbers()).isEmpty();
  }

  @Test
  void allProblemsAreNamedAtOnce() {
    ReadResult read =
        FactParser.accept(
            """
            {"type": "GerminationTest", "colour": "blue",
             "header": {"factId": "f 1", "recordedBy": "lab-03", "happenedAt": "2024-09-02 10:00",
               "recordedAt": "1889-09-02T08:05:00Z"},
             "lotId": 7, "sampleId": null, "laboratoryId": "lab-north",
             "replicates": [{"seeds": 100.5, "normalSeedlings": "93"}, {"seeds": 5000000000}]}
            """);

    assertThat(((ReadResult.Refused) read).problems())
        .extracting(Problem::field)
        .containsExactlyInAnyOrder(
            "",
            "header.factId",
            "header.happenedAt",
            "header.recordedAt",
            "header.sourceDocument",
            "lotId",
            "sampleId",
            "replicates[0].seeds",
            "replicates[0].normalSeedlings",
            "replicates[1].seeds",
            "replicates[1].normalSeedlings");
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '~',
      textBlock =
          """
          "seeds": 100      | "seeds": 100.5        | replicates[0].seeds | 100.5
          "seeds": 100      | "seeds": 2147483648   | replicates[0].seeds | 2147483648
          "seeds": 100      | "seeds": 1e400        | replicates[0].seeds | Infinity
          "seeds": 100      | "seeds": [100]        | replicates[0].seeds | a list of 1 element
          "GerminationTest" | "germinationtest"     | type                | 'germinationtest'
          "GerminationTest" | 3                     | type                | 3
          +02:00            | ~~                    | header.happenedAt   | '2024-09-02T10:00:00'
          2024-09-02T10     | 2024-09-31T10         | header.happenedAt   | '2024-09-31T10:00:00+02:00'
          """)
  void aWrongValueIsNamedWithItsField(String right, String wrong, String field, String value) {
    String text = GERMINATION.replaceFirst(java.util.regex.Pattern.quote(right), wrong);

    List<Problem> problems = ((ReadResult.Refused) FactParser.accept(text)).problems();

    assertThat(problems)
        .extracting(Problem::field, InEnglish::value)
        .containsExactly(org.assertj.core.groups.Tuple.tuple(field, value));
  }

  @Test
  void refusesWhatIsMeantToHurt() {
    String deep = "{\"type\":".repeat(100_000);
    String longNumber = GERMINATION.replaceFirst("100", "9".repeat(500));
    String twice = GERMINATION.replaceFirst("\"lotId\"", "\"lotId\": \"other\", \"lotId\"");
    String two = GERMINATION + GERMINATION;
    String corners = "{\"lon\":1,\"lat\":1},".repeat(30_000);
    String manyCorners =
        "{\"type\":\"PollenSourceSeen\",\"outline\":[" + corners + "{\"lon\":1,\"lat\":1}]}";
    String endless = GERMINATION.replace("report 24-117", "x".repeat(2_000_000));

    for (String text : List.of(deep, longNumber, twice, two, manyCorners, endless, "", " ", "[]")) {
      assertThat(FactParser.accept(text)).isInstanceOf(ReadResult.Refused.class);
    }
    assertThat(((ReadResult.Refused) FactParser.accept(manyCorners)).problems())
        .extracting(Problem::field, InEnglish::value)
        .contains(org.assertj.core.groups.Tuple.tuple("outline", "a list of 30,001 elements"));
  }

  @Test
  void aLookAlikeIdIsRefusedWithItsStrangeLetterWrittenOut() {
    String cyrillic = GERMINATION.replace("F1-24-007", "Х1-24-007");

    List<Problem> problems = ((ReadResult.Refused) FactParser.accept(cyrillic)).problems();

    assertThat(problems)
        .extracting(Problem::field, InEnglish::value)
        .containsExactly(org.assertj.core.groups.Tuple.tuple("lotId", "'\\u04251-24-007'"));
  }
}
