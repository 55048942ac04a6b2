package org.kornspur.api.export.prov;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.kornspur.api.export.DemoEntries;
import org.kornspur.ingest.contract.Subject;

/**
 * Held against the rules of the W3C Member Submission "The PROV-JSON Serialization" (2013),
 * sections 2 and 3: names of sections, mandatory attributes of each relation, qualified names with
 * a declared prefix, and that what a relation names is declared as the right kind of thing.
 */
class ProvDocumentTest {

  /** Section 3: attributes of each relation that name something, with the section it stands in. */
  private static final Map<String, Map<String, String>> RELATIONS =
      Map.of(
          "wasGeneratedBy", Map.of("prov:entity", "entity", "prov:activity", "activity"),
          "used", Map.of("prov:activity", "activity", "prov:entity", "entity"),
          "wasInvalidatedBy", Map.of("prov:entity", "entity", "prov:activity", "activity"),
          "wasDerivedFrom", Map.of("prov:generatedEntity", "entity", "prov:usedEntity", "entity"),
          "wasAssociatedWith", Map.of("prov:activity", "activity", "prov:agent", "agent"),
          "wasAttributedTo", Map.of("prov:entity", "entity", "prov:agent", "agent"),
          "wasInfluencedBy", Map.of("prov:influencee", "entity", "prov:influencer", "activity"));

  private final ObjectNode whole = ProvDocument.of(DemoEntries.all(), "https://seed.example");

  @Test
  void theWholeDemoKeepsTheRulesOfProvJson() {
    Set<String> sections = new HashSet<>(RELATIONS.keySet());
    sections.addAll(Set.of("prefix", "entity", "activity", "agent"));
    whole.fieldNames().forEachRemaining(name -> assertThat(name).isIn(sections));
    Set<String> prefixes = new HashSet<>(Set.of("_", "prov", "xsd"));
    whole.get("prefix").fieldNames().forEachRemaining(prefixes::add);
    for (Map.Entry<String, JsonNode> section : whole.properties()) {
      if (!section.getKey().equals("prefix")) {
        section
            .getValue()
            .fieldNames()
            .forEachRemaining(
                name -> {
                  assertThat(name).matches("[^:]+:[^:/]+");
                  assertThat(name.substring(0, name.indexOf(':'))).isIn(prefixes);
                });
      }
    }
    RELATIONS.forEach(
        (relation, ends) ->
            whole
                .get(relation)
                .forEach(
                    one ->
                        ends.forEach(
                            (attribute, section) ->
                                assertThat(whole.get(section).has(one.get(attribute).textValue()))
                                    .as("%s of %s", attribute, one)
                                    .isTrue())));
  }

  /** Names under a prefix that is declared, as PROV-N, section 3.7.3, has qualified names. */
  @Test
  void typesAndRolesAreNames() {
    Set<String> prefixes = new HashSet<>(Set.of("prov"));
    whole.get("prefix").fieldNames().forEachRemaining(prefixes::add);
    List<JsonNode> names = new ArrayList<>(whole.findValues("prov:type"));
    names.addAll(whole.findValues("prov:role"));
    assertThat(names)
        .hasSizeGreaterThan(100)
        .allSatisfy(
            name -> {
              assertThat(name.path("type").asText()).isEqualTo("prov:QUALIFIED_NAME");
              assertThat(name.path("$").asText()).matches("[^:]+:[^:/]+");
              assertThat(name.path("$").asText().split(":")[0]).isIn(prefixes);
            });
  }

  @Test
  void aSoldLotGoesBackToTheBreedersSeed() {
    Map<String, Set<String>> parents = new HashMap<>();
    for (JsonNode derived : whole.get("wasDerivedFrom")) {
      parents
          .computeIfAbsent(derived.get("prov:generatedEntity").textValue(), name -> new HashSet<>())
          .add(derived.get("prov:usedEntity").textValue());
    }
    Set<String> reached = new HashSet<>();
    Deque<String> open = new ArrayDeque<>(List.of("lot:L25-S05-P1"));
    while (!open.isEmpty()) {
      for (String parent : parents.getOrDefault(open.remove(), Set.of())) {
        if (reached.add(parent)) {
          open.add(parent);
        }
      }
    }
    assertThat(reached)
        .contains("lot:L24-S05", "lot:M24-S05", "crop:C25-S05", "lot:L23-11", "lot:L23-12")
        .anyMatch(name -> name.startsWith("lot:P22-"));
  }

  @Test
  void aCorrectedRecordIsInvalidatedAndRevised() {
    ObjectNode prov =
        ProvDocument.of(DemoEntries.of(Subject.lot("R25-S06")), "https://seed.example");
    assertThat(prov.get("wasInvalidatedBy")).hasSize(1);
    JsonNode invalidation = prov.get("wasInvalidatedBy").elements().next();
    String wrong = invalidation.get("prov:entity").textValue();
    assertThat(prov.get("activity").has(wrong.replace("record:", "activity:"))).isFalse();
    assertThat(prov.get("wasDerivedFrom"))
        .anyMatch(
            derived ->
                derived.at("/prov:type/$").asText().equals("prov:Revision")
                    && derived.get("prov:usedEntity").textValue().equals(wrong));
  }
}
