package org.kornspur.api.web.help;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.kornspur.api.operations.AlertRules;
import org.kornspur.api.text.Language;

/** Whoever is woken by an alert finds what to do. */
class RunbookTest {
  private static final HelpTexts MANUAL = new HelpTexts();

  @ParameterizedTest
  @EnumSource
  void everyAlertHasItsSection(Language language) throws Exception {
    List<String> alerts =
        AlertRules.read().all().stream().map(rule -> rule.path("alert").asText()).toList();
    assertThat(alerts).hasSizeGreaterThan(10).doesNotHaveDuplicates();
    assertThat(
            MANUAL.of(HelpTopic.RUNBOOK, language).sections().stream()
                .filter(section -> section.level() == 2)
                .map(section -> section.heading()))
        .containsExactlyElementsOf(alerts);
  }

  @Test
  void everyAlertLeadsToItsSection() throws Exception {
    for (JsonNode rule : AlertRules.read().all()) {
      String alert = rule.path("alert").asText();
      assertThat(rule.at("/annotations/runbook_url").asText())
          .isEqualTo(
              "http://127.0.0.1:8080"
                  + HelpTopic.RUNBOOK.href()
                  + "#"
                  + alert.toLowerCase(Locale.ROOT));
      assertThat(MANUAL.of(HelpTopic.RUNBOOK, Language.ENGLISH).html())
          .contains("id=\"" + alert.toLowerCase(Locale.ROOT) + "\"");
    }
  }
}
