package org.kornspur.api.readmodel;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.kornspur.api.DemoMachine;
import org.kornspur.api.security.Role;
import org.kornspur.api.security.login.Asking;
import org.kornspur.api.security.people.TestPeople;
import org.kornspur.api.web.DemoLoaded;

/** The metrics of the seed, held against what the interface lists of the same demo. */
@ExtendWith(DemoMachine.class)
class SiteGaugesIT {
  private static final ObjectMapper JSON = new ObjectMapper();

  private final Asking asking = new Asking(DemoMachine.root());
  private List<String> metrics;

  @BeforeEach
  void read() throws Exception {
    DemoLoaded.await();
    Asking.Answer answer = asking.get(TestPeople.of(Role.MONITOR), "/metrics");
    assertThat(answer.status()).isEqualTo(200);
    metrics = answer.body().lines().toList();
  }

  @Test
  void cropsAndLotsAreCountedByStanding() throws Exception {
    for (String kind : List.of("lots", "crops")) {
      for (String state : List.of("FIT", "NOT_FIT", "EVIDENCE_OWED")) {
        String labels = "{standing=\"" + state.toLowerCase(Locale.ROOT) + "\"}";
        assertThat(value("kornspur_" + kind + labels))
            .as("%s %s", kind, state)
            .isEqualTo(listed("/api/v1/" + kind + "?size=1&state=" + state).path("total").asInt());
      }
    }
  }

  @Test
  void whatWaitsForAPersonIsCounted() throws Exception {
    assertThat(value("kornspur_quarantine_held"))
        .isPositive()
        .isEqualTo(listed("/api/v1/quarantine?size=1&state=HELD").path("total").asInt());
    double owed =
        List.of("overdue", "week", "month", "later", "no_day").stream()
            .mapToDouble(due -> value("kornspur_evidence_owed{due=\"" + due + "\"}"))
            .sum();
    long listed = 0;
    for (JsonNode subject : listed("/api/v1/owed?size=1000").path("items")) {
      for (JsonNode piece : subject.path("owed")) {
        listed += piece.path("inherited").asBoolean() ? 0 : 1;
      }
    }
    assertThat(owed).isPositive().isEqualTo(listed);
  }

  @Test
  void howFarJudgingAndSigningAreBehindIsTold() {
    assertThat(value("kornspur_facts_oldest_waiting_seconds")).isZero();
    assertThat(value("kornspur_checkpoint_age_seconds")).isPositive();
  }

  private JsonNode listed(String path) throws Exception {
    return JSON.readTree(asking.get(TestPeople.of(Role.QUALITY), path).body());
  }

  private double value(String name) {
    return metrics.stream()
        .filter(line -> line.startsWith(name + " "))
        .map(line -> line.substring(name.length() + 1))
        .mapToDouble(Double::parseDouble)
        .findFirst()
        .orElseThrow(() -> new AssertionError("no metric " + name));
  }
}
