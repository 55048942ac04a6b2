package org.kornspur.ingest.proof;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import com.fasterxml.jackson.databind.node.TextNode;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Base64;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.ShrinkingMode;
import org.junit.jupiter.api.Test;
import org.kornspur.contract.FactHeader;
import org.kornspur.contract.MoistureTest;
import org.kornspur.ingest.chain.ChainHead;
import org.kornspur.ingest.chain.ChainLink;
import org.kornspur.ingest.chain.Checkpoint;
import org.kornspur.ingest.chain.LogRecord;
import org.kornspur.ingest.chain.ProvedSegment;
import org.kornspur.ingest.chain.UnreadableChain;
import org.kornspur.ingest.json.AvroJson;
import org.kornspur.ingest.proof.ProofFinding.Kind;
import org.kornspur.ingest.registry.LocalSchemaRegistry;
import org.kornspur.ingest.seal.SigningKey;
import org.kornspur.ingest.seal.TrustedKeys;
import org.kornspur.ingest.wire.WireFormat;

/** An exported dossier of invented facts, tampered with in every way that a file allows. */
class ProofVerificationTest {
  private static final Instant NOON = Instant.parse("2026-03-01T12:00:00Z");
  private static final SigningKey KEY = SigningKey.random();
  private static final TrustedKeys TRUSTED = TrustedKeys.of(KEY.publicKey());

  /** Told from the rest of the file when it is read, so that changing it changes nothing. */
  private static final Set<String> TOLD_ONLY = Set.of("covered", "coverage", "publicKey");

  private static final JsonNode FILE = ProofJson.write(proof());

  @Test
  void aProofThatNobodyTouchedHolds() {
    assertThat(verify(FILE)).isEmpty();
    assertThat(FILE.at("/coverage/signed").asInt()).isEqualTo(3);
    assertThat(FILE.at("/coverage/chainedAndNotSignedYet").asInt()).isEqualTo(1);
    assertThat(FILE.at("/coverage/fromBeforeTheChain").asInt()).isEqualTo(1);
    assertThat(FILE.at("/facts/0/fact/moisturePercent").asDouble()).isEqualTo(14.5);
  }

  @Test
  void aFlippedByteInAFactIsNamed() {
    ObjectNode file = FILE.deepCopy();
    ObjectNode fact = (ObjectNode) file.at("/facts/1");
    byte[] wire = Base64.getDecoder().decode(fact.get("wire").asText());
    wire[wire.length - 12] ^= 1;
    fact.put("wire", Base64.getEncoder().encodeToString(wire));
    ProofFinding first = verify(file).get(0);
    assertThat(first.kind()).isEqualTo(Kind.FACT_ALTERED);
    assertThat(first.factId()).isEqualTo("m-8");
  }

  @Test
  void aReadableFormThatSaysSomethingElseIsNamed() {
    ObjectNode file = FILE.deepCopy();
    ((ObjectNode) file.at("/facts/2/fact")).put("moisturePercent", 9.9);
    assertThat(verify(file))
        .singleElement()
        .satisfies(
            finding -> {
              assertThat(finding.kind()).isEqualTo(Kind.READING_ALTERED);
              assertThat(finding.factId()).isEqualTo("m-13");
              assertThat(finding.expected()).isEqualTo("moisturePercent 14.5");
              assertThat(finding.found()).isEqualTo("moisturePercent 9.9");
            });
  }

  @Test
  void aDroppedFactIsNamed() {
    ObjectNode file = FILE.deepCopy();
    ((ArrayNode) file.get("facts")).remove(1);
    assertFirst(file, Kind.FACT_REMOVED, "m-8");
  }

  @Test
  void anInsertedFactIsNamed() {
    ObjectNode file = FILE.deepCopy();
    ObjectNode copy = file.at("/facts/0").deepCopy();
    copy.put("factId", "m-99");
    ((ArrayNode) file.get("facts")).insert(1, copy);
    assertFirst(file, Kind.FACT_INSERTED, "m-99");
  }

  @Test
  void factsInAnotherOrderAreNamed() {
    ObjectNode file = FILE.deepCopy();
    ArrayNode facts = (ArrayNode) file.get("facts");
    facts.insert(0, facts.remove(1));
    assertFirst(file, Kind.FACT_REORDERED, "m-8");
  }

  @Test
  void aFactDroppedTogetherWithItsEntryBreaksTheList() {
    ObjectNode file = FILE.deepCopy();
    ((ArrayNode) file.get("facts")).remove(1);
    ((ArrayNode) file.at("/manifest/entries")).remove(1);
    assertFirst(file, Kind.MANIFEST_ALTERED, "m-13");
  }

  @Test
  void aProofSealedByAnotherKeyIsNotTrusted() {
    TrustedKeys others = TrustedKeys.of(SigningKey.random().publicKey());
    assertThat(ProofVerification.of(ProofJson.read(FILE), others))
        .isNotEmpty()
        .allSatisfy(finding -> assertThat(finding.kind()).isEqualTo(Kind.UNKNOWN_KEY));
  }

  /** Every text and number in the file, changed alone, is found or makes it unreadable. */
  @Property(tries = 400, shrinking = ShrinkingMode.OFF)
  void whateverIsChangedIsFound(@ForAll Random random) {
    ObjectNode file = FILE.deepCopy();
    String changed = changeSomething(file, random, "");
    boolean found;
    try {
      found = !verify(file).isEmpty();
    } catch (UnreadableChain unreadable) {
      found = true;
    }
    assertThat(found).as(changed).isTrue();
  }

  private static String changeSomething(JsonNode branch, Random random, String path) {
    if (branch instanceof ObjectNode fields) {
      List<String> names = new ArrayList<>();
      fields.fieldNames().forEachRemaining(names::add);
      names.removeAll(TOLD_ONLY);
      String name = names.get(random.nextInt(names.size()));
      JsonNode value = fields.get(name);
      if (value.isContainerNode() && !value.isEmpty()) {
        return changeSomething(value, random, path + "/" + name);
      }
      fields.set(name, changed(value, random));
      return path + "/" + name + " from " + value + " to " + fields.get(name);
    }
    ArrayNode elements = (ArrayNode) branch;
    int index = random.nextInt(elements.size());
    return changeSomething(elements.get(index), random, path + "/" + index);
  }

  private static JsonNode changed(JsonNode value, Random random) {
    if (value.isNumber()) {
      return JsonNodeFactory.instance.numberNode(value.asLong() + 1 + random.nextInt(9));
    }
    if (!value.isTextual() || value.asText().isEmpty()) {
      return new TextNode("x");
    }
    StringBuilder text = new StringBuilder(value.asText());
    int last = text.length() - 3; // the last characters of Base64 may stand for no bits
    int at = random.nextInt(Math.max(1, last));
    char other = text.charAt(at) == '1' ? '2' : '1';
    text.setCharAt(at, other);
    return new TextNode(text.toString());
  }

  private static void assertFirst(JsonNode file, Kind kind, String factId) {
    ProofFinding first = verify(file).get(0);
    assertThat(first.kind()).isEqualTo(kind);
    assertThat(first.factId()).isEqualTo(factId);
  }

  private static List<ProofFinding> verify(JsonNode file) {
    return ProofVerification.of(ProofJson.read(file), TRUSTED);
  }

  /** Twenty records with checkpoints at 5, 10, 15; of five facts one is unsigned, one unchained. */
  private static Proof proof() {
    WireFormat wire = new WireFormat(new LocalSchemaRegistry());
    List<LogRecord> records = new ArrayList<>();
    List<ChainLink> links = new ArrayList<>();
    List<Checkpoint> checkpoints = new ArrayList<>();
    ChainHead head = ChainHead.start(0);
    for (int i = 1; i <= 20; i++) {
      byte[] value = wire.encode("kornspur.facts", moisture("m-" + i));
      LogRecord record =
          new LogRecord(
              0, i * 2L, i, ("m-" + i).getBytes(StandardCharsets.UTF_8), value, List.of());
      ChainLink link = head.link(record.entry());
      head = head.with(link);
      records.add(record);
      links.add(link);
      if (i % 5 == 0 && i < 20) {
        Checkpoint checkpoint = head.sign(KEY, NOON.plusSeconds(i));
        checkpoints.add(checkpoint);
        head = head.with(checkpoint);
      }
    }
    List<ProvedSegment> segments =
        List.of(
            ProvedSegment.of(Optional.empty(), checkpoints.get(0), links.subList(0, 5)),
            ProvedSegment.of(
                Optional.of(checkpoints.get(0)), checkpoints.get(1), links.subList(5, 10)),
            ProvedSegment.of(
                Optional.of(checkpoints.get(1)), checkpoints.get(2), links.subList(10, 15)));
    List<ProvedFact> facts = new ArrayList<>();
    facts.add(fact(wire, records.get(2), 3, 0));
    facts.add(fact(wire, records.get(7), 8, 1));
    facts.add(fact(wire, records.get(12), 13, 2));
    facts.add(fact(wire, records.get(17), 18, -1));
    byte[] early = wire.encode("kornspur.facts", moisture("m-0"));
    facts.add(
        new ProvedFact(
            "m-0",
            AvroJson.write(wire.decode(early)),
            early,
            wire.writerSchema(early).id(),
            Optional.empty()));
    WireFormat.WriterSchema schema = wire.writerSchema(early);
    return Proof.seal(
        "lot:L-1", NOON, facts, Map.of(schema.id(), schema.schema().toString()), segments, KEY);
  }

  private static ProvedFact fact(WireFormat wire, LogRecord record, long sequence, int segment) {
    return new ProvedFact(
        record.factId(),
        AvroJson.write(wire.decode(record.value())),
        record.value(),
        wire.writerSchema(record.value()).id(),
        Optional.of(new ProvedFact.Place(record, sequence, segment)));
  }

  private static MoistureTest moisture(String factId) {
    FactHeader header = new FactHeader(factId, "p-1", NOON, NOON, "invented", null, null);
    return MoistureTest.newBuilder()
        .setHeader(header)
        .setLotId("L-1")
        .setSampleId("S-1")
        .setMoisturePercent(14.5)
        .setLaboratoryId("LAB-1")
        .build();
  }
}
