package org.kornspur.api.export.paper;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.SerializationFeature;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.SortedMap;
import java.util.TreeMap;
import org.kornspur.api.query.view.StandingView;
import org.kornspur.ingest.contract.Fingerprint;
import org.kornspur.ingest.json.AvroJson;
import org.kornspur.processors.dossier.Entry;

/**
 * The content of a dossier as data: every fact, under its id, with its fingerprint, and every
 * standing, under its subject. Names in alphabetical order, no blanks, UTF-8; no time at which it
 * was asked for, so that the same facts and standings always give the same bytes.
 */
final class DossierJson {
  private final SortedMap<String, Object> standings = new TreeMap<>();
  private final SortedMap<String, Object> facts = new TreeMap<>();
  private final ObjectMapper json;
  private final String subject;

  DossierJson(ObjectMapper json, String subject) {
    this.json = json.copy().configure(SerializationFeature.ORDER_MAP_ENTRIES_BY_KEYS, true);
    this.subject = subject;
  }

  void add(StandingView standing) {
    ObjectNode tree = json.valueToTree(standing);
    tree.remove(List.of("asOf", "changedAt", "links"));
    standings.put(standing.subject(), json.convertValue(tree, Map.class));
  }

  void add(Entry entry) {
    SortedMap<String, Object> fact = new TreeMap<>();
    fact.put("fact", json.convertValue(AvroJson.write(entry.fact()), Map.class));
    fact.put("fingerprint", Fingerprint.of(entry.fact()));
    entry
        .superseded()
        .ifPresent(
            superseded ->
                fact.put(
                    "superseded",
                    new TreeMap<>(
                        Map.of("byFactId", superseded.byFactId(), "reason", superseded.reason()))));
    facts.put(entry.header().getFactId(), fact);
  }

  /** Ids of all facts in it. */
  List<String> factIds() {
    return new ArrayList<>(facts.keySet());
  }

  byte[] bytes() {
    SortedMap<String, Object> whole = new TreeMap<>();
    whole.put("format", "kornspur-dossier-file 1");
    whole.put("subject", subject);
    whole.put("standings", standings);
    whole.put("facts", facts);
    try {
      return json.writeValueAsString(whole).getBytes(StandardCharsets.UTF_8);
    } catch (JsonProcessingException e) {
      throw new IllegalStateException("Maps and texts can always be written", e);
    }
  }

  /** SHA-256 over bytes, in hexadecimal. */
  static String sha256(byte[] bytes) {
    return HexFormat.of().formatHex(Fingerprint.sha256().digest(bytes));
  }
}
