package org.kornspur.api.readmodel;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import java.util.Set;
import java.util.TreeSet;
import org.apache.avro.specific.SpecificRecord;
import org.junit.jupiter.api.Test;
import org.kornspur.contract.Dispatch;
import org.kornspur.contract.EnterpriseDeclared;
import org.kornspur.contract.EnterpriseKind;
import org.kornspur.contract.FactHeader;
import org.kornspur.contract.Harvest;
import org.kornspur.contract.MoistureTest;
import org.kornspur.contract.PostControlMethod;
import org.kornspur.contract.PostControlResult;

/** Expected by hand from what each fact names. */
class SearchIndexTest {
  private static final List<SpecificRecord> FACTS =
      List.of(
          new Harvest(head("h-1", "Ticket 4711"), "C-1", "L-1", 900.0, null),
          new Harvest(head("h-2", "ticket 4712"), "C-2", "L-2", 800.0, null),
          new MoistureTest(head("m-1", "Report Ä-9"), "L-1", "S-L-1", 13.0, "LAB"),
          new Dispatch(
              head("d-1", "note 1"), "L-2", "CUST-7", 100.0, List.of("INV-001", "INV-010")),
          PostControlResult.newBuilder()
              .setHeader(head("p-1", "book"))
              .setLotId("L-1")
              .setMethod(PostControlMethod.PLOT)
              .setPlotOrTestId("PLOT-3")
              .setPlantsExamined(1000)
              .setIdentityConfirmed(true)
              .setOffTypePlants(0)
              .build(),
          new EnterpriseDeclared(
              head("e-1", "Ticket of an enterprise"),
              "CUST-7",
              "Invented customer",
              EnterpriseKind.CUSTOMER,
              List.of()));

  @Test
  void everyPartOfATextFindsWhatItStandsForInAnyCaseAndOrder() {
    for (int seed = 0; seed < 20; seed++) {
      List<SpecificRecord> facts = new ArrayList<>(FACTS);
      Collections.shuffle(facts, new Random(seed));
      SearchIndex index = new SearchIndex();
      facts.forEach(index::put);
      facts.forEach(index::put);

      assertThat(found(index, SearchIndex.Kind.DOCUMENT, "TICKET 471"))
          .containsExactly(
              "Ticket 4711=crop:C-1",
              "Ticket 4711=lot:L-1",
              "ticket 4712=crop:C-2",
              "ticket 4712=lot:L-2");
      assertThat(found(index, SearchIndex.Kind.DOCUMENT, "ä-9"))
          .containsExactly("Report Ä-9=lot:L-1");
      assertThat(found(index, SearchIndex.Kind.SAMPLE, "s-l")).containsExactly("S-L-1=lot:L-1");
      assertThat(found(index, SearchIndex.Kind.LABEL, "v-01")).containsExactly("INV-010=lot:L-2");
      assertThat(found(index, SearchIndex.Kind.CUSTOMER, "cust")).containsExactly("CUST-7=lot:L-2");
      assertThat(found(index, SearchIndex.Kind.PLOT, "-3")).containsExactly("PLOT-3=lot:L-1");
      assertThat(found(index, SearchIndex.Kind.PERSON, "p-01")).hasSize(4);
      assertThat(found(index, SearchIndex.Kind.FIELD, "ticket")).isEmpty();

      index.clear();
      assertThat(found(index, SearchIndex.Kind.DOCUMENT, "ticket")).isEmpty();
    }
  }

  private static Set<String> found(SearchIndex index, SearchIndex.Kind kind, String part) {
    Set<String> found = new TreeSet<>();
    index.find(kind, part, (text, subject) -> found.add(text + "=" + subject));
    return found;
  }

  private static FactHeader head(String factId, String document) {
    Instant day = Instant.parse("2026-08-03T08:00:00Z");
    return new FactHeader(factId, "p-01", day, day, document, null, null);
  }
}
