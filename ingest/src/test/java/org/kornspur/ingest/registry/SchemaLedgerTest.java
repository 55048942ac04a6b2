package org.kornspur.ingest.registry;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.apache.avro.Schema;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.kornspur.ingest.registry.SchemaLedger.Addition;
import org.kornspur.ingest.registry.SchemaLedger.Decision;
import org.kornspur.ingest.registry.SchemaLedger.Entry;
import org.kornspur.ingest.registry.SchemaLedger.Held;
import org.kornspur.ingest.registry.SchemaLedger.Incompatible;

class SchemaLedgerTest {

  private static final Schema MASS = record("{'name':'massKg','type':'double'}");
  private static final String OPTIONAL_NOTE =
      "{'name':'note','type':['null','string'],'default':null}";

  private final SchemaLedger ledger = new SchemaLedger();
  private final List<Entry> log = new ArrayList<>();

  @Test
  void shouldCountVersionsBySubjectAndIdsOverAll() {
    Schema noted = record("{'name':'massKg','type':'double'}", OPTIONAL_NOTE);
    assertThat(register("harvest", MASS)).isEqualTo(entry("harvest", 1, 1, MASS));
    assertThat(register("harvest", noted)).isEqualTo(entry("harvest", 2, 2, noted));
    assertThat(register("dispatch", noted)).isEqualTo(entry("dispatch", 1, 2, noted));
    assertThat(ledger.byId(2)).contains(noted);
    assertThat(ledger.byId(3)).isEmpty();
  }

  @Test
  void shouldGiveTheSameSchemaTheSameIdAgain() {
    Entry first = register("harvest", MASS);
    assertThat(ledger.decide("harvest", MASS)).isEqualTo(new Held(first));
    assertThat(ledger.find("harvest", MASS)).contains(first);
    assertThat(ledger.find("dispatch", MASS)).isEmpty();
  }

  @Test
  void shouldChangeNothingByDeciding() {
    ledger.decide("harvest", MASS);
    assertThat(ledger.holds("harvest")).isFalse();
    assertThat(ledger.byId(1)).isEmpty();
  }

  /**
   * What full compatibility lets pass: Confluent Documentation, "Schema Evolution and
   * Compatibility", table "Summary": FULL and FULL_TRANSITIVE allow to add and to delete optional
   * fields (those with a default), nothing else.
   */
  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '"',
      value = {
        "add an optional field    | {'name':'massKg','type':'double'} | {'name':'massKg','type':'double'},{'name':'n','type':'int','default':0} | true",
        "delete an optional field | {'name':'n','type':'int','default':0},{'name':'massKg','type':'double'} | {'name':'massKg','type':'double'} | true",
        "add a required field     | {'name':'massKg','type':'double'} | {'name':'massKg','type':'double'},{'name':'n','type':'int'} | false",
        "delete a required field  | {'name':'n','type':'int'},{'name':'massKg','type':'double'} | {'name':'massKg','type':'double'} | false",
        "widen a number           | {'name':'n','type':'int'} | {'name':'n','type':'long'} | false",
        "change a type            | {'name':'n','type':'int'} | {'name':'n','type':'string'} | false",
        "rename a field           | {'name':'n','type':'int'} | {'name':'m','type':'int'} | false",
      })
  void shouldLetPassWhatFullCompatibilityAllows(
      String change, String before, String after, boolean allowed) {
    register("harvest", record(before));
    assertThat(ledger.decide("harvest", record(after)) instanceof Addition)
        .as(change)
        .isEqualTo(allowed);
  }

  /** Version 3 fits version 2, and breaks version 1: only a transitive check sees it. */
  @Test
  void shouldCompareWithEveryEarlierVersion() {
    register(
        "harvest",
        record("{'name':'massKg','type':'double'}", "{'name':'n','type':'int','default':0}"));
    register("harvest", record("{'name':'massKg','type':'double'}"));
    Decision third =
        ledger.decide(
            "harvest",
            record(
                "{'name':'massKg','type':'double'}", "{'name':'n','type':'string','default':''}"));
    assertThat(third).isInstanceOf(Incompatible.class);
    assertThat(((Incompatible) third).messages())
        .hasSize(2)
        .allSatisfy(message -> assertThat(message).contains("version 1").contains("/fields/1"));
  }

  @Test
  void shouldBeTheSameAfterItsLogIsReplayedEvenTwice() {
    register("harvest", MASS);
    register("dispatch", MASS);
    register("harvest", record("{'name':'massKg','type':'double'}", OPTIONAL_NOTE));
    SchemaLedger replayed = new SchemaLedger();
    Stream.concat(log.stream(), log.stream()).forEach(replayed::apply);
    Schema next =
        record("{'name':'massKg','type':'double'}", "{'name':'n','type':'int','default':0}");
    for (String subject : List.of("harvest", "dispatch", "split")) {
      for (Schema schema : List.of(MASS, next, record("{'name':'massKg','type':'string'}"))) {
        assertThat(replayed.decide(subject, schema)).isEqualTo(ledger.decide(subject, schema));
      }
    }
    assertThat(log.stream().map(Entry::key)).doesNotHaveDuplicates();
  }

  @Test
  void shouldRefuseALogThatContradictsItself() {
    register("harvest", MASS);
    Schema other = record("{'name':'n','type':'int'}");
    assertThatThrownBy(() -> ledger.apply(entry("harvest", 1, 2, other)))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("contradicts itself");
    assertThatThrownBy(() -> ledger.apply(entry("split", 1, 1, other)))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("id 1");
    assertThatThrownBy(() -> ledger.apply(new Entry("split", 1, 5, "no schema")))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("split/1");
  }

  private Entry register(String subject, Schema schema) {
    Entry entry = ((Addition) ledger.decide(subject, schema)).entry();
    ledger.apply(entry);
    log.add(entry);
    return entry;
  }

  private static Entry entry(String subject, int version, int id, Schema schema) {
    return new Entry(subject, version, id, schema.toString());
  }

  private static Schema record(String... fields) {
    String text = "{'type':'record','name':'Weighing','fields':[" + String.join(",", fields) + "]}";
    return new Schema.Parser().parse(text.replace('\'', '"'));
  }
}
