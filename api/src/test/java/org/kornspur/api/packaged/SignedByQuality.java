package org.kornspur.api.packaged;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.kornspur.api.command.act.InventedFitLot;
import org.kornspur.api.security.people.TestPeople;

/** Acts that a person signs on lots of a running site. */
final class SignedByQuality {
  /** Address of an invented lot that may be released today. */
  static final String FIT_LOT = "/api/v1/lots/FIT-TODAY";

  private static final ObjectMapper JSON = new ObjectMapper();

  private SignedByQuality() {}

  /** What makes it fit. */
  static List<String> factsOfFitLot() {
    List<String> facts = new ArrayList<>(InventedFitLot.facts("FIT-TODAY"));
    facts.add(InventedFitLot.laboratory());
    return facts;
  }

  /** Addresses of the first lots that are fit; so many there must be. */
  static List<String> fitLots(Site site, int howMany) throws InterruptedException {
    List<String> fit =
        site.lines().entrySet().stream()
            .filter(line -> line.getKey().startsWith("/api/v1/lots/"))
            .filter(line -> line.getValue().path("state").asText().equals("FIT"))
            .map(Map.Entry::getKey)
            .limit(howMany)
            .toList();
    assertThat(fit).hasSize(howMany);
    return fit;
  }

  /** Signs what the lot's sheet shows now. */
  static void sign(Site site, String lot, String kind) throws Exception {
    ObjectNode act = JSON.createObjectNode();
    act.put("kind", kind);
    act.put("reason", "all is said");
    act.put("meaning", "responsibility for the release");
    act.put("seal", site.answer(lot + "/release-sheet").path("seal").asText());
    act.put("password", TestPeople.password());
    Site.Answer signed = site.post(lot + "/acts", act);
    assertThat(signed.status()).as("%s", signed).isEqualTo(201);
  }

  /** What the lot's release has come to. */
  static String step(Site site, String lot) throws InterruptedException {
    return site.answer(lot).at("/release/step").asText();
  }

  /** All that was signed on the lot verifies. */
  static void assertSignaturesVerify(Site site, String lot) throws InterruptedException {
    JsonNode acts = site.answer(lot + "/acts");
    assertThat(acts).as(lot).isNotEmpty();
    acts.forEach(act -> assertThat(act.path("signatureVerifies").asBoolean()).as(lot).isTrue());
  }
}
