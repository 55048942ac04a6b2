package org.kornspur.api.web;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.TreeSet;
import java.util.function.Function;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.kornspur.api.readmodel.ReceiptTimes;
import org.kornspur.api.text.DomainTerms;
import org.kornspur.contract.Correction;
import org.kornspur.contract.FactHeader;
import org.kornspur.contract.Withdrawal;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.json.AvroJson;
import org.kornspur.processors.dossier.Entry;

/**
 * A fact in a time line. One that was corrected stands there with its values struck, and the one
 * that corrected it says what it changed.
 *
 * @param anchor name of its place on the page
 * @param type in the words of the trade
 * @param late how long after that it was received; empty where that was as usual, or the fact may
 *     not be shown whole
 * @param corrects id of the fact that it corrects or takes back; else empty
 * @param takesBack whether it takes back rather than corrects
 * @param reason why it corrects
 * @param changes fields that it changed
 * @param values all that it says, field by field
 */
public record FactLine(
    Entry entry,
    String anchor,
    String type,
    Optional<ReceiptTimes.Late> late,
    Optional<String> corrects,
    boolean takesBack,
    String reason,
    List<Change> changes,
    List<Value> values) {

  /** A field that a correction changed; an absent value is empty. */
  public record Change(String field, String was, String is) {}

  /** A field and its value. */
  public record Value(String field, String value) {}

  /** Name of a fact's place on the page that shows it. */
  static String anchorOf(String factId) {
    return "fact-" + factId;
  }

  /**
   * The facts of a dossier as a time line, in their order.
   *
   * @param seen whether all that a fact says may be shown; of others type and time stand alone
   */
  static List<FactLine> of(
      List<Entry> entries, ReceiptTimes receipts, DomainTerms trade, Predicate<Entry> seen) {
    Map<String, Entry> byId =
        entries.stream()
            .filter(seen)
            .collect(Collectors.toMap(entry -> entry.header().getFactId(), Function.identity()));
    return entries.stream().map(entry -> of(entry, byId, receipts, trade)).toList();
  }

  private static FactLine of(
      Entry entry, Map<String, Entry> byId, ReceiptTimes receipts, DomainTerms trade) {
    FactHeader header = entry.header();
    Optional<Withdrawal> withdrawal =
        Optional.of(entry.fact()).filter(Withdrawal.class::isInstance).map(Withdrawal.class::cast);
    Optional<Correction> correction = Optional.ofNullable(header.getCorrection());
    Optional<String> corrects =
        correction
            .map(Correction::getSupersedes)
            .or(() -> withdrawal.map(Withdrawal::getWithdrawnFactId));
    boolean isWhole = byId.containsKey(header.getFactId());
    Map<String, String> values = isWhole ? values(entry) : Map.of();
    return new FactLine(
        entry,
        anchorOf(header.getFactId()),
        FactType.of(entry.fact().getSchema()).map(trade::fact).orElse(""),
        isWhole ? receipts.late(header) : Optional.empty(),
        corrects,
        withdrawal.isPresent(),
        correction
            .map(Correction::getReason)
            .or(() -> withdrawal.map(Withdrawal::getReason))
            .orElse(""),
        correction
            .map(Correction::getSupersedes)
            .map(byId::get)
            .map(before -> changes(values(before), values))
            .orElse(List.of()),
        values.entrySet().stream()
            .map(value -> new Value(value.getKey(), value.getValue()))
            .toList());
  }

  private static List<Change> changes(Map<String, String> before, Map<String, String> after) {
    return Stream.concat(before.keySet().stream(), after.keySet().stream())
        .collect(Collectors.toCollection(TreeSet::new))
        .stream()
        .filter(field -> !Objects.equals(before.get(field), after.get(field)))
        .map(
            field ->
                new Change(field, before.getOrDefault(field, ""), after.getOrDefault(field, "")))
        .toList();
  }

  /** All but the header and what is absent, with nested fields named by their path. */
  private static Map<String, String> values(Entry entry) {
    ObjectNode fact = AvroJson.write(entry.fact());
    fact.remove(List.of("type", "header"));
    Map<String, String> values = new LinkedHashMap<>();
    flatten("", fact, values);
    return values;
  }

  private static void flatten(String path, JsonNode node, Map<String, String> values) {
    if (node.isObject()) {
      node.fields()
          .forEachRemaining(
              field ->
                  flatten(
                      path.isEmpty() ? field.getKey() : path + " · " + field.getKey(),
                      field.getValue(),
                      values));
    } else if (node.isArray()) {
      List<JsonNode> elements = new ArrayList<>();
      node.forEach(elements::add);
      if (elements.stream().allMatch(JsonNode::isValueNode)) {
        values.put(path, elements.stream().map(JsonNode::asText).collect(Collectors.joining(", ")));
        return;
      }
      for (int i = 0; i < elements.size(); i++) {
        flatten(path + " " + (i + 1), elements.get(i), values);
      }
    } else if (!node.isNull()) {
      values.put(path, node.asText());
    }
  }
}
