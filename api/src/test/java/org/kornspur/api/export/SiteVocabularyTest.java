package org.kornspur.api.export;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.kornspur.api.export.epcis.CaptureDocument;
import org.kornspur.api.export.epcis.EpcisDocuments;
import org.kornspur.api.export.epcis.EpcisEvents;
import org.kornspur.api.export.epcis.FactsFromEpcis;
import org.kornspur.api.export.identity.Identifiers;
import org.kornspur.api.export.identity.Vocabulary;
import org.kornspur.api.export.prov.ProvDocument;
import org.kornspur.ingest.json.ReadResult;
import org.kornspur.processors.dossier.Entry;

class SiteVocabularyTest {
  private static final String ADDRESS = "https://seed.example/terms#";
  private static final Identifiers IDS = new Identifiers("https://seed.example");

  private final SiteVocabulary site = new SiteVocabulary(ADDRESS);
  private final List<Entry> entries = DemoEntries.all().subList(0, 200);
  private final ObjectNode document =
      EpcisDocuments.document(
          entries.stream()
              .map(
                  new EpcisEvents(IDS, ZoneOffset.UTC, lotId -> Optional.empty(), DemoEntries::fact)
                      ::event)
              .toList(),
          Instant.EPOCH);

  @Test
  void nothingLeavesUnderAnotherNameThanThatOfTheSite() {
    assertThat(document.toString()).contains(Vocabulary.NAMESPACE);
    assertThat(site.outward(document).toString())
        .contains(ADDRESS)
        .doesNotContain(Vocabulary.NAMESPACE);
    ObjectNode prov = site.outward(ProvDocument.of(entries, IDS.base()));
    assertThat(prov.at("/prefix/kornspur").asText()).isEqualTo(ADDRESS);
    assertThat(site.inward(site.outward(document))).isEqualTo(document);
  }

  /** Whoever names it otherwise brought the same facts. */
  @Test
  void documentsComeInUnderEitherName() {
    for (JsonNode sent : List.of(site.outward(document), document)) {
      CaptureDocument captured = CaptureDocument.ofDocument(site.inward(sent));
      for (JsonNode event : captured.events()) {
        assertThat(new FactsFromEpcis(IDS, "p-01").read(event, captured.factKeys()))
            .hasSize(1)
            .allMatch(ReadResult.Fact.class::isInstance);
      }
    }
  }

  @Test
  void aTermIsAskedForByTheNameOfTheSite() {
    assertThat(site.inward(ADDRESS + "sowing")).isEqualTo(Vocabulary.term("sowing"));
    assertThat(site.inward("shipping")).isEqualTo("shipping");
  }
}
