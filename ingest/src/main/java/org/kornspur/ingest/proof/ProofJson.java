package org.kornspur.ingest.proof;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.time.DateTimeException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Base64;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.kornspur.ingest.chain.Checkpoint;
import org.kornspur.ingest.chain.LogRecord;
import org.kornspur.ingest.chain.ProvedSegment;
import org.kornspur.ingest.chain.UnreadableChain;
import org.kornspur.ingest.seal.Hash;

/** A proof as a JSON file. Bytes are Base64, hashes hexadecimal, times ISO 8601. */
public final class ProofJson {

  private static final String KIND = "kornspur-proof";
  private static final int VERSION = 1;
  private static final ObjectMapper JSON = new ObjectMapper();

  private ProofJson() {}

  public static ObjectNode write(Proof proof) {
    ObjectNode root = JSON.createObjectNode().put("kind", KIND).put("version", VERSION);
    root.put("subject", proof.manifest().subject());
    root.put("exportedAt", proof.manifest().exportedAt().toString());
    root.putObject("coverage")
        .put("signed", proof.signed())
        .put("chainedAndNotSignedYet", proof.unsigned())
        .put("fromBeforeTheChain", proof.unchained());
    ArrayNode facts = root.putArray("facts");
    proof.facts().forEach(fact -> facts.add(write(fact)));
    ObjectNode schemas = root.putObject("schemas");
    new TreeMap<>(proof.schemas()).forEach((id, schema) -> schemas.put(id.toString(), schema));
    ArrayNode segments = root.putArray("segments");
    proof.segments().forEach(segment -> segments.add(write(segment)));
    root.set("manifest", write(proof.manifest()));
    return root;
  }

  private static ObjectNode write(ProvedFact fact) {
    ObjectNode json = JSON.createObjectNode().put("factId", fact.factId());
    json.put("covered", coverage(fact));
    json.set("fact", fact.fact());
    json.put("schemaId", fact.schemaId());
    json.put("wire", base64(fact.wire()));
    fact.place()
        .ifPresent(
            place -> {
              LogRecord record = place.record();
              ObjectNode at = json.putObject("place");
              at.put("partition", record.partition())
                  .put("offset", record.offset())
                  .put("timestampMs", record.timestampMs())
                  .put("key", base64(record.key()))
                  .put("number", place.sequence());
              ArrayNode headers = at.putArray("headers");
              record
                  .headers()
                  .forEach(
                      header ->
                          headers
                              .addObject()
                              .put("name", header.name())
                              .put("value", base64(header.value())));
              if (place.isSigned()) {
                at.put("segment", place.segment());
              }
            });
    return json;
  }

  private static String coverage(ProvedFact fact) {
    return fact.place()
        .map(place -> place.isSigned() ? "signed" : "chained, not signed yet")
        .orElse("from before the chain began");
  }

  private static ObjectNode write(ProvedSegment segment) {
    ObjectNode json = JSON.createObjectNode();
    segment.after().ifPresent(after -> json.set("after", after.toJson()));
    json.set("until", segment.until().toJson());
    ArrayNode steps = json.putArray("links");
    segment
        .steps()
        .forEach(
            step ->
                steps
                    .addObject()
                    .put("offset", step.offset())
                    .put("content", step.content().toString()));
    return json;
  }

  private static ObjectNode write(Manifest manifest) {
    ObjectNode json = JSON.createObjectNode();
    ArrayNode entries = json.putArray("entries");
    for (Manifest.Entry entry : manifest.entries()) {
      entries
          .addObject()
          .put("factId", entry.factId())
          .put("content", entry.content().toString())
          .put("schema", entry.schema().toString())
          .put("partition", entry.at().partition())
          .put("number", entry.at().sequence())
          .put("offset", entry.at().offset())
          .put("link", entry.link().toString());
    }
    return json.put("keyId", manifest.keyId())
        .put("publicKey", manifest.publicKey())
        .put("signature", base64(manifest.signature()));
  }

  /**
   * Reads a proof.
   *
   * @throws UnreadableChain if it is none
   */
  public static Proof read(byte[] json) {
    try {
      return read(JSON.readTree(json));
    } catch (IOException e) {
      throw new UnreadableChain("The file is not JSON: " + e.getMessage(), e);
    }
  }

  /**
   * Reads a proof.
   *
   * @throws UnreadableChain if it is none
   */
  public static Proof read(JsonNode root) {
    if (!KIND.equals(root.path("kind").asText()) || root.path("version").asInt() != VERSION) {
      throw new UnreadableChain(
          "The file is not a proof of this version: kind and version must be %s and %s"
              .formatted(KIND, VERSION));
    }
    try {
      List<ProvedFact> facts = new ArrayList<>();
      list(root, "facts").forEach(fact -> facts.add(fact(fact)));
      Map<Integer, String> schemas = new TreeMap<>();
      root.required("schemas")
          .properties()
          .forEach(
              schema -> schemas.put(Integer.parseInt(schema.getKey()), schema.getValue().asText()));
      List<ProvedSegment> segments = new ArrayList<>();
      list(root, "segments").forEach(segment -> segments.add(segment(segment)));
      return new Proof(manifest(root), facts, schemas, segments);
    } catch (IllegalArgumentException | DateTimeException e) {
      throw new UnreadableChain("The file is not a whole proof: " + e.getMessage(), e);
    }
  }

  private static ProvedFact fact(JsonNode json) {
    byte[] wire = bytes(json.required("wire"));
    Optional<ProvedFact.Place> place = Optional.empty();
    if (json.has("place")) {
      JsonNode at = json.get("place");
      List<LogRecord.Header> headers = new ArrayList<>();
      list(at, "headers")
          .forEach(
              header ->
                  headers.add(
                      new LogRecord.Header(
                          header.required("name").asText(), bytes(header.required("value")))));
      LogRecord record =
          new LogRecord(
              at.required("partition").intValue(),
              at.required("offset").longValue(),
              at.required("timestampMs").longValue(),
              bytes(at.required("key")),
              wire,
              headers);
      place =
          Optional.of(
              new ProvedFact.Place(
                  record,
                  at.required("number").longValue(),
                  at.has("segment") ? at.get("segment").intValue() : -1));
    }
    return new ProvedFact(
        json.required("factId").asText(),
        json.required("fact"),
        wire,
        json.required("schemaId").intValue(),
        place);
  }

  private static ProvedSegment segment(JsonNode json) {
    List<ProvedSegment.Step> steps = new ArrayList<>();
    list(json, "links")
        .forEach(
            step ->
                steps.add(
                    new ProvedSegment.Step(
                        step.required("offset").longValue(),
                        Hash.parse(step.required("content").asText()))));
    return new ProvedSegment(
        json.has("after") ? Optional.of(Checkpoint.of(json.get("after"))) : Optional.empty(),
        Checkpoint.of(json.required("until")),
        steps);
  }

  private static Manifest manifest(JsonNode root) {
    JsonNode json = root.required("manifest");
    List<Manifest.Entry> entries = new ArrayList<>();
    list(json, "entries")
        .forEach(
            entry ->
                entries.add(
                    new Manifest.Entry(
                        entry.required("factId").asText(),
                        Hash.parse(entry.required("content").asText()),
                        Hash.parse(entry.required("schema").asText()),
                        new Manifest.At(
                            entry.required("partition").intValue(),
                            entry.required("number").longValue(),
                            entry.required("offset").longValue()),
                        Hash.parse(entry.required("link").asText()))));
    return new Manifest(
        root.required("subject").asText(),
        Instant.parse(root.required("exportedAt").asText()),
        entries,
        json.required("keyId").asText(),
        json.required("publicKey").asText(),
        Base64.getDecoder().decode(json.required("signature").asText()));
  }

  private static JsonNode list(JsonNode json, String name) {
    JsonNode list = json.required(name);
    if (!list.isArray()) {
      throw new IllegalArgumentException("'" + name + "' is not a list");
    }
    return list;
  }

  private static String base64(byte[] bytes) {
    return bytes == null ? null : Base64.getEncoder().encodeToString(bytes);
  }

  private static byte[] bytes(JsonNode json) {
    return json.isNull() ? null : Base64.getDecoder().decode(json.asText());
  }
}
