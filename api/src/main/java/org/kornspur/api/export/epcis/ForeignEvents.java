package org.kornspur.api.export.epcis;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.kornspur.api.export.identity.EventId;
import org.kornspur.api.export.identity.Identifiers;
import org.kornspur.api.export.identity.Vocabulary;
import org.kornspur.api.problem.EventProblem;
import org.kornspur.ingest.contract.Fingerprint;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.intake.Problem;
import org.kornspur.ingest.intake.Problems;
import org.kornspur.ingest.json.FactJson;
import org.kornspur.ingest.json.FactParser;
import org.kornspur.ingest.json.ReadResult;
import org.kornspur.ingest.problem.Expected;
import org.kornspur.ingest.problem.ValueProblem;

/**
 * Events from programs that know nothing of ours: what was transformed, what was shipped, and what
 * came into being with master data. All else is refused and says what was missing; nothing is
 * guessed.
 *
 * <p>The same event sent twice must be the same fact. So the fact's id follows from the event's id,
 * and an event without record time counts as recorded when it happened.
 */
record ForeignEvents(Identifiers ids, String recordedBy) {
  private static final Pattern CBV_STEP =
      Pattern.compile(
          "(?:https?://(?:ref|ns)\\.gs1\\.org/cbv/BizStep-|urn:epcglobal:cbv:bizstep:)(\\w+)");
  private static final JsonNodeFactory NODES = JsonNodeFactory.instance;

  /** The short word of a business step of the vocabulary; any other text as it is. */
  static String word(String bizStep) {
    Matcher matcher = CBV_STEP.matcher(bizStep);
    return matcher.matches() ? matcher.group(1) : bizStep;
  }

  List<ReadResult> read(JsonNode event) {
    Problems problems = new Problems();
    List<ObjectNode> facts = facts(event, problems);
    if (!problems.none()) {
      return List.of(new ReadResult.Refused(problems.list()));
    }
    return facts.stream().map(FactParser::accept).toList();
  }

  private List<ObjectNode> facts(JsonNode event, Problems problems) {
    if (event.has("errorDeclaration")) {
      problems.add(
          "errorDeclaration", event.path("eventID").asText(null), new EventProblem.DeclaredWrong());
      return List.of();
    }
    String step = word(event.path("bizStep").asText(""));
    return switch (event.path("type").asText("")) {
      case "TransformationEvent" -> List.of(transformation(event, step, problems));
      case "ObjectEvent" -> objectEvent(event, step, problems);
      default -> {
        notUnderstood(event, problems);
        yield List.of();
      }
    };
  }

  private List<ObjectNode> objectEvent(JsonNode event, String step, Problems problems) {
    boolean added = event.path("action").asText("").equals("ADD");
    if (step.equals("shipping")) {
      return shipments(event, problems);
    }
    if (added && (step.equals("commissioning") || step.equals("creating_class_instance"))) {
      return declarations(event, problems);
    }
    notUnderstood(event, problems);
    return List.of();
  }

  private static void notUnderstood(JsonNode event, Problems problems) {
    problems.add(
        "type",
        (event.path("type").asText("") + " " + event.path("bizStep").asText("")).strip(),
        new EventProblem.NotUnderstood(Vocabulary.term("fact")));
  }

  private ObjectNode transformation(JsonNode event, String step, Problems problems) {
    ArrayNode inputs = masses(event, "inputQuantityList", problems);
    ArrayNode outputs = masses(event, "outputQuantityList", problems);
    if (step.equals(Vocabulary.term("splitting")) && inputs.size() == 1) {
      ObjectNode split = fact("LotSplit", event, 0, problems);
      split.put("fromLotId", inputs.get(0).get("lotId").textValue());
      split.set("parts", outputs);
      return split;
    }
    boolean isMerge = inputs.size() > 1 && outputs.size() == 1;
    if (isMerge && !step.equals(Vocabulary.term("conditioning"))) {
      ObjectNode merge = fact("LotMerge", event, 0, problems);
      merge.set("inputs", inputs);
      merge.put("intoLotId", outputs.get(0).get("lotId").textValue());
      return merge;
    }
    ObjectNode conditioning = fact("Conditioning", event, 0, problems);
    conditioning.set("inputs", inputs);
    conditioning.set("outputs", outputs);
    conditioning.put("screeningsKg", Math.max(0, wholeKg(inputs) - wholeKg(outputs)));
    return conditioning;
  }

  private static double wholeKg(ArrayNode masses) {
    double kg = 0;
    for (JsonNode mass : masses) {
      kg += mass.path("massKg").asDouble();
    }
    return kg;
  }

  private List<ObjectNode> shipments(JsonNode event, Problems problems) {
    Optional<String> customer = customer(event);
    if (customer.isEmpty()) {
      problems.add(
          "destinationList", null, new EventProblem.NoCustomer(ids.of(Subject.enterprise("ID"))));
    }
    List<ObjectNode> facts = new ArrayList<>();
    for (JsonNode mass : masses(event, "quantityList", problems)) {
      ObjectNode dispatch = fact("Dispatch", event, facts.size(), problems);
      dispatch.setAll((ObjectNode) mass);
      customer.ifPresent(id -> dispatch.put("customerId", id));
      facts.add(dispatch);
    }
    return facts;
  }

  private Optional<String> customer(JsonNode event) {
    for (String wanted : List.of("owning_party", "possessing_party")) {
      for (JsonNode destination : event.path("destinationList")) {
        Optional<Subject> party = ids.subject(destination.path("destination").asText(""));
        if (destination.path("type").asText("").equals(wanted)
            && party.filter(subject -> subject.kind() == Subject.Kind.ENTERPRISE).isPresent()) {
          return party.map(Subject::id);
        }
      }
    }
    return Optional.empty();
  }

  private List<ObjectNode> declarations(JsonNode event, Problems problems) {
    JsonNode ilmd = event.path("ilmd");
    List<ObjectNode> facts = new ArrayList<>();
    for (JsonNode mass : masses(event, "quantityList", problems)) {
      ObjectNode declared = fact("LotDeclared", event, facts.size(), problems);
      declared.setAll((ObjectNode) mass);
      name(ilmd, "hybrid", Subject.Kind.HYBRID, "hybridId", declared, problems);
      name(ilmd, "enterprise", Subject.Kind.ENTERPRISE, "enterpriseId", declared, problems);
      attribute(ilmd, "component", "componentId", declared, problems);
      attribute(ilmd, "category", "category", declared, problems);
      attribute(ilmd, "rulebook", "rulebookId", declared, problems);
      attribute(ilmd, "cropYear", "cropYear", declared, problems);
      facts.add(declared);
    }
    return facts;
  }

  private void name(
      JsonNode ilmd,
      String term,
      Subject.Kind kind,
      String field,
      ObjectNode into,
      Problems problems) {
    Optional<Subject> named = ids.subject(value(ilmd, term).asText(""));
    if (named.filter(subject -> subject.kind() == kind).isPresent()) {
      into.put(field, named.get().id());
    } else {
      missing(term, value(ilmd, term), problems);
    }
  }

  private static void attribute(
      JsonNode ilmd, String term, String field, ObjectNode into, Problems problems) {
    JsonNode value = value(ilmd, term);
    if (value.isValueNode()) {
      into.set(field, value);
    } else {
      missing(term, value, problems);
    }
  }

  private static void missing(String term, JsonNode value, Problems problems) {
    problems.add(
        "ilmd." + Vocabulary.shortTerm(term),
        value.asText(null),
        new EventProblem.LotIncomplete(Vocabulary.term(term)));
  }

  private static JsonNode value(JsonNode ilmd, String term) {
    JsonNode under = ilmd.path(Vocabulary.shortTerm(term));
    return under.isMissingNode() ? ilmd.path(Vocabulary.term(term)) : under;
  }

  private ArrayNode masses(JsonNode event, String list, Problems problems) {
    ArrayNode masses = NODES.arrayNode();
    JsonNode elements = event.path(list);
    for (int at = 0; at < elements.size(); at++) {
      String path = list + "[" + at + "]";
      JsonNode element = elements.get(at);
      String name = element.path("epcClass").asText("");
      Optional<String> lot =
          ids.subject(name).filter(subject -> subject.kind() == Subject.Kind.LOT).map(Subject::id);
      Optional<Double> kilograms = kilograms(element);
      if (lot.isEmpty()) {
        problems.add(path + ".epcClass", name, new EventProblem.NoLot());
      }
      if (kilograms.isEmpty()) {
        problems.add(
            path + ".quantity",
            (element.path("quantity").asText("") + " " + element.path("uom").asText("")).strip(),
            new EventProblem.NoMass());
      }
      if (lot.isPresent() && kilograms.isPresent()) {
        masses.addObject().put("lotId", lot.get()).put("massKg", kilograms.get());
      }
    }
    if (elements.isEmpty()) {
      problems.add(list, null, new EventProblem.NoLots());
    }
    return masses;
  }

  private static Optional<Double> kilograms(JsonNode element) {
    JsonNode quantity = element.path("quantity");
    if (!quantity.isNumber()) {
      return Optional.empty();
    }
    return switch (element.path("uom").asText("")) {
      case Units.KILOGRAM -> Optional.of(quantity.doubleValue());
      case Units.GRAM -> Optional.of(quantity.doubleValue() / 1000);
      case "TNE" -> Optional.of(quantity.doubleValue() * 1000);
      default -> Optional.empty();
    };
  }

  private ObjectNode fact(String type, JsonNode event, int number, Problems problems) {
    ObjectNode fact = NODES.objectNode();
    fact.put(FactJson.TYPE_FIELD, type);
    ObjectNode header = fact.putObject("header");
    String eventId = event.path("eventID").asText("");
    String eventTime = event.path("eventTime").asText("");
    if (number == 0 && FactsFromEpcis.time(eventTime).isEmpty()) {
      problems.add(
          Problem.of("eventTime", eventTime, new ValueProblem.NoTime(new Expected.Time())));
    }
    header.put("factId", "epcis-" + uuid(event, eventId) + (number == 0 ? "" : "-" + number));
    header.put("recordedBy", recordedBy);
    header.put("happenedAt", eventTime);
    header.put("recordedAt", event.path("recordTime").asText(eventTime));
    header.put("sourceDocument", eventId.isEmpty() ? "EPCIS event without id" : eventId);
    return fact;
  }

  private static UUID uuid(JsonNode event, String eventId) {
    return EventId.uuidIn(eventId)
        .orElseGet(
            () ->
                EventId.uuidOfFact(
                    eventId.isEmpty()
                        ? Fingerprint.of(event.toString().getBytes(StandardCharsets.UTF_8))
                        : eventId));
  }
}
