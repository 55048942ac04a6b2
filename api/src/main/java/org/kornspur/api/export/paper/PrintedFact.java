package org.kornspur.api.export.paper;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.kornspur.api.command.act.ActView;
import org.kornspur.api.readmodel.ReceiptTimes;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Fingerprint;
import org.kornspur.ingest.json.AvroJson;
import org.kornspur.processors.dossier.Entry;

/**
 * A fact as it is printed: all that it says.
 *
 * @param type its name in the contract
 * @param late how long after that it was received; empty where that was as usual
 * @param fingerprint SHA-256 over type and content
 * @param act the act in readable form; empty where the fact is none, or may not be read as such
 */
public record PrintedFact(
    Entry entry,
    String type,
    Optional<ReceiptTimes.Late> late,
    String fingerprint,
    Optional<ActView> act,
    List<Field> fields) {

  /** A field and its value; what is inside another has both names, separated by a point. */
  public record Field(String name, String value) {}

  static PrintedFact of(Entry entry, Optional<ReceiptTimes.Late> late, Optional<ActView> act) {
    List<Field> fields = new ArrayList<>();
    ObjectNode fact = AvroJson.write(entry.fact());
    fact.remove(List.of("type", "header"));
    fact.fields().forEachRemaining(field -> add(fields, field.getKey(), field.getValue()));
    Optional.ofNullable(entry.header().getCorrection())
        .ifPresent(
            correction -> {
              fields.add(new Field("correction.supersedes", correction.getSupersedes()));
              fields.add(new Field("correction.reason", correction.getReason()));
            });
    return new PrintedFact(
        entry,
        FactType.of(entry.fact()).contractName(),
        late,
        Fingerprint.of(entry.fact()),
        act,
        List.copyOf(fields));
  }

  private static void add(List<Field> fields, String name, JsonNode value) {
    if (value.isObject()) {
      value
          .fields()
          .forEachRemaining(inner -> add(fields, name + "." + inner.getKey(), inner.getValue()));
    } else if (value.isArray()) {
      boolean plain = true;
      List<String> texts = new ArrayList<>();
      for (JsonNode element : value) {
        plain &= element.isValueNode();
        texts.add(element.isValueNode() ? element.asText() : inner(element));
      }
      fields.add(new Field(name, String.join(plain ? ", " : "; ", texts)));
    } else if (!value.isNull()) {
      fields.add(new Field(name, value.asText()));
    }
  }

  private static String inner(JsonNode element) {
    List<String> parts = new ArrayList<>();
    element
        .fields()
        .forEachRemaining(
            field -> {
              JsonNode value = field.getValue();
              if (!value.isNull()) {
                String text = value.isValueNode() ? value.asText() : inner(value);
                parts.add(field.getKey() + " " + text);
              }
            });
    return String.join(" ", parts);
  }
}
