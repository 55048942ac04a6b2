package org.kornspur.api.web.record;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.kornspur.api.text.Language;
import org.kornspur.api.text.PageTexts;
import org.kornspur.api.web.form.FormView;
import org.kornspur.ingest.contract.FactType;

/** What is offered again is one's own, the latest first, and of the persons who typed last. */
class LastEntriesTest {
  private final LastEntries last = new LastEntries();

  @Test
  void theLatestIsOfferedFirstAndOnlyToWhoTypedIt() {
    last.keep("p1", sheet(FactType.HARVEST, Map.of("header.sourceDocument", "ticket 1")));
    last.keep("p1", sheet(FactType.DISPATCH, Map.of("header.sourceDocument", "note 1")));
    last.keep("p1", sheet(FactType.HARVEST, Map.of("header.sourceDocument", "ticket 2")));
    last.keep("p2", sheet(FactType.HARVEST, Map.of("header.sourceDocument", "of another")));

    assertThat(last.of("p1", "sourceDocument")).containsExactly("ticket 2", "note 1");
    assertThat(last.of("p1", FactType.HARVEST))
        .contains(Map.of("header.sourceDocument", "ticket 2"));
    assertThat(last.of("p3", "sourceDocument")).isEmpty();
    assertThat(last.of("p2", FactType.DISPATCH)).isEmpty();
  }

  @Test
  void whoTypedLongAgoIsForgotten() {
    for (int person = 0; person < 1_000; person++) {
      last.keep("p" + person, sheet(FactType.HARVEST, Map.of("lotId", "L" + person)));
    }

    assertThat(last.of("p0", FactType.HARVEST)).isEmpty();
    assertThat(last.of("p999", FactType.HARVEST)).contains(Map.of("lotId", "L999"));
  }

  private static FormView<ContractForm> sheet(FactType type, Map<String, String> values) {
    return new ContractFields(Language.ENGLISH, PageTexts.in(Language.ENGLISH, "record"))
        .sheet(new ContractForm(type), Optional.empty(), list -> 0)
        .mapping(field -> field.starting(values.getOrDefault(field.name(), "")));
  }
}
