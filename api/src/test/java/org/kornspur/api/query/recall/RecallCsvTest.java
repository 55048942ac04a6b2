package org.kornspur.api.query.recall;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.apache.avro.specific.SpecificRecord;
import org.junit.jupiter.api.Test;
import org.kornspur.api.query.view.AsOf;
import org.kornspur.api.query.view.TraceView;
import org.kornspur.api.security.visibility.Visibility;
import org.kornspur.api.text.EnglishWords;
import org.kornspur.contract.Dispatch;
import org.kornspur.contract.FactHeader;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.balance.MassBalance.Tolerance;
import org.kornspur.processors.pedigree.Edge;
import org.kornspur.processors.pedigree.Edges;
import org.kornspur.processors.pedigree.Pedigree;
import org.kornspur.processors.recall.RecallDrill;

/** The drill as it is given out. */
class RecallCsvTest {
  private static final Instant AT = Instant.parse("2025-08-15T09:35:00Z");

  private static RecallView drillOf(Dispatch dispatch, AsOf asOf) {
    List<SpecificRecord> facts = List.of(dispatch);
    Pedigree pedigree =
        new Pedigree() {
          @Override
          public List<Edge> edgesInto(Subject child) {
            return List.of();
          }

          @Override
          public List<Edge> edgesOutOf(Subject parent) {
            List<Edge> edges = new ArrayList<>();
            facts.forEach(fact -> edges.addAll(Edges.of(fact)));
            return edges.stream().filter(edge -> edge.parent().equals(parent)).toList();
          }
        };
    RecallDrill drill =
        RecallDrill.of(
            pedigree,
            subject -> facts,
            Subject.lot(dispatch.getLotId()),
            10,
            Map.of(),
            new Tolerance(0.5, "common practice, no source"));
    return RecallView.of(
        drill,
        TraceView.of(
            drill.back(),
            subject -> Optional.empty(),
            Visibility.everything(),
            EnglishWords.firstReasons(),
            1,
            asOf),
        TraceView.of(
            drill.forward(),
            subject -> Optional.empty(),
            Visibility.everything(),
            EnglishWords.firstReasons(),
            1,
            asOf),
        Visibility.everything(),
        EnglishWords.words(),
        1,
        0,
        asOf);
  }

  private static Dispatch dispatch(String customer, List<String> labels) {
    return new Dispatch(
        new FactHeader("d-1", "tester", AT, AT, "note", null, null),
        "L-1",
        customer,
        100.0,
        labels);
  }

  /** Source of the guard: OWASP, "CSV Injection". */
  @Test
  void noCellCanBecomeAFormula() {
    for (String evil : List.of("=1+1", "+1", "-1", "@SUM(A1)", "\t=1", "\r=1", "\n=1", "＝1")) {
      String sheet =
          RecallCsv.write(
              drillOf(
                  dispatch(evil, List.of(evil)),
                  AsOf.waiting(AT, Map.of(), 0, EnglishWords.words())));
      assertThat(sheet).contains("\"'" + evil + "\"");
      assertThat(sheet).doesNotContain("\"" + evil);
    }
  }

  /** Source: RFC 4180, section 2, rule 7. */
  @Test
  void aQuoteIsDoubled() {
    String sheet =
        RecallCsv.write(
            drillOf(
                dispatch("A \"B\"", List.of()),
                AsOf.waiting(AT, Map.of(), 0, EnglishWords.words())));
    assertThat(sheet).contains("\"A \"\"B\"\"\"");
  }

  @Test
  void anIncompleteDrillSaysSoAndWhy() {
    RecallView drill =
        drillOf(
            dispatch("C", List.of()),
            AsOf.waiting(AT, Map.of("kornspur.facts", 3L), 0, EnglishWords.words()));
    assertThat(drill.complete()).isFalse();
    assertThat(drill.incompleteBecause())
        .containsExactly(
            "2 links are unresolved.",
            "Records that had come in were not all processed yet; this answer may change. Ask again"
                + " shortly.");
    assertThat(drill.looseEnds())
        .extracting(RecallView.LooseEndView::sentence)
        .anyMatch(sentence -> sentence.contains("d-1") && sentence.contains("no label number"));
    assertThat(RecallCsv.write(drill)).contains("INCOMPLETE: 2 links are unresolved.");
  }
}
