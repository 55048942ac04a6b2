package org.kornspur.ingest.proof;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.apache.avro.Schema;
import org.kornspur.ingest.chain.Checkpoint;
import org.kornspur.ingest.chain.ProvedSegment;
import org.kornspur.ingest.intake.CountedNoun;
import org.kornspur.ingest.json.AvroJson;
import org.kornspur.ingest.proof.ProofFinding.Kind;
import org.kornspur.ingest.registry.SchemaRegistry;
import org.kornspur.ingest.seal.Hash;
import org.kornspur.ingest.seal.TrustedKeys;
import org.kornspur.ingest.wire.WireFormat;

/** Says whether an exported dossier is as it was sealed, and what is not. Needs no connection. */
public final class ProofVerification {

  private final Proof proof;
  private final TrustedKeys trusted;
  private final List<ProofFinding> findings = new ArrayList<>();

  private ProofVerification(Proof proof, TrustedKeys trusted) {
    this.proof = proof;
    this.trusted = trusted;
  }

  /** What is not as it was sealed; nothing where all is. */
  public static List<ProofFinding> of(Proof proof, TrustedKeys trusted) {
    ProofVerification verification = new ProofVerification(proof, trusted);
    verification.checkManifest();
    verification.checkFactsAreThoseOfTheManifest();
    verification.checkReadings();
    verification.checkSegments();
    verification.checkPlaces();
    return verification.findings;
  }

  private void checkManifest() {
    Manifest manifest = proof.manifest();
    Hash before = Manifest.genesis(manifest.subject(), manifest.exportedAt());
    for (int i = 0; i < manifest.entries().size(); i++) {
      Manifest.Entry entry = manifest.entries().get(i);
      if (!Manifest.follows(entry, before, i + 1)) {
        note(
            Kind.MANIFEST_ALTERED,
            entry.factId(),
            "entry " + (i + 1) + " to follow the one before",
            "link " + entry.link() + ", which does not");
        return;
      }
      before = entry.link();
    }
    checkSignature(
        manifest.keyId(), manifest.head().bytes(), manifest.signature(), "the list of the facts");
  }

  private void checkSignature(String keyId, byte[] message, byte[] signature, String over) {
    if (!trusted.contains(keyId)) {
      note(
          Kind.UNKNOWN_KEY,
          "",
          "one of the keys " + String.join(", ", trusted.keyIds()),
          "key " + keyId + " under " + over);
    } else if (!trusted.verifies(keyId, message, signature)) {
      note(
          Kind.BAD_SIGNATURE,
          "",
          "a signature of key " + keyId + " over " + over,
          "one over something else");
    }
  }

  private void checkFactsAreThoseOfTheManifest() {
    List<Manifest.Entry> entries = proof.manifest().entries();
    List<ProvedFact> facts = proof.facts();
    for (int i = 0; i < Math.max(entries.size(), facts.size()); i++) {
      if (i >= facts.size()) {
        note(Kind.FACT_REMOVED, entries.get(i).factId(), "entry " + (i + 1), "no more facts");
        return;
      }
      if (i >= entries.size()) {
        note(Kind.FACT_INSERTED, facts.get(i).factId(), "no more facts", "this one");
        return;
      }
      if (!agree(entries.get(i), facts.get(i), i)) {
        return;
      }
    }
  }

  private boolean agree(Manifest.Entry entry, ProvedFact fact, int index) {
    if (!entry.factId().equals(fact.factId())) {
      note(misplaced(entry, fact, index));
      return false;
    }
    if (!entry.content().equals(fact.content()) || !wireIsTheRecords(fact)) {
      note(
          Kind.FACT_ALTERED,
          fact.factId(),
          "content " + entry.content(),
          "content " + fact.content());
      return false;
    }
    String schema = proof.schemas().getOrDefault(fact.schemaId(), "");
    if (!entry.schema().equals(Manifest.hashOf(schema))) {
      note(
          Kind.SCHEMA_ALTERED,
          fact.factId(),
          "schema " + entry.schema(),
          "schema " + Manifest.hashOf(schema));
      return false;
    }
    Manifest.At at = Manifest.At.of(fact);
    if (!entry.at().equals(at)) {
      note(Kind.NOT_IN_CHAIN, fact.factId(), entry.at().toString(), at.toString());
      return false;
    }
    return true;
  }

  private static boolean wireIsTheRecords(ProvedFact fact) {
    return fact.place().isEmpty()
        || Arrays.equals(fact.wire(), fact.place().get().record().value());
  }

  private ProofFinding misplaced(Manifest.Entry entry, ProvedFact fact, int at) {
    Set<String> sealed =
        proof.manifest().entries().stream()
            .skip(at)
            .map(Manifest.Entry::factId)
            .collect(Collectors.toSet());
    Set<String> there =
        proof.facts().stream().skip(at).map(ProvedFact::factId).collect(Collectors.toSet());
    if (!sealed.contains(fact.factId())) {
      return new ProofFinding(
          there.contains(entry.factId()) ? Kind.FACT_INSERTED : Kind.FACT_ALTERED,
          there.contains(entry.factId()) ? fact.factId() : entry.factId(),
          "fact " + entry.factId() + " as entry " + (at + 1),
          "fact " + fact.factId());
    }
    return there.contains(entry.factId())
        ? new ProofFinding(
            Kind.FACT_REORDERED,
            fact.factId(),
            "fact " + entry.factId() + " as entry " + (at + 1),
            "fact " + fact.factId())
        : new ProofFinding(
            Kind.FACT_REMOVED, entry.factId(), "it as entry " + (at + 1), "fact " + fact.factId());
  }

  private void checkReadings() {
    WireFormat wire = new WireFormat(new ProofSchemas());
    for (ProvedFact fact : proof.facts()) {
      try {
        JsonNode read = AvroJson.write(wire.decode(fact.wire()));
        if (!read.equals(SAME_NUMBERS, fact.fact())) {
          note(
              Kind.READING_ALTERED,
              fact.factId(),
              firstDifference("", read, fact.fact(), true),
              firstDifference("", read, fact.fact(), false));
        } else if (!fact.factId().equals(read.at("/header/factId").asText())) {
          note(
              Kind.READING_ALTERED,
              fact.factId(),
              "fact id " + read.at("/header/factId").asText(),
              "fact id " + fact.factId());
        }
      } catch (RuntimeException unreadable) {
        note(
            Kind.READING_ALTERED,
            fact.factId(),
            "bytes that the schema of the proof reads",
            String.valueOf(unreadable.getMessage()));
      }
    }
  }

  /** A number is the same whether it is written 1240 or 1240.0. */
  private static final Comparator<JsonNode> SAME_NUMBERS =
      (one, other) ->
          one.isNumber() && other.isNumber()
              ? Double.compare(one.doubleValue(), other.doubleValue())
              : (one.equals(other) ? 0 : 1);

  private static String firstDifference(
      String path, JsonNode read, JsonNode shown, boolean expected) {
    if (read.isObject() && shown.isObject()) {
      for (var field : read.properties()) {
        JsonNode other = shown.path(field.getKey());
        if (!field.getValue().equals(SAME_NUMBERS, other)) {
          return firstDifference(path + "." + field.getKey(), field.getValue(), other, expected);
        }
      }
      return path + " with " + CountedNoun.of((expected ? read : shown).size(), "field(s)");
    }
    return (path.isEmpty() ? "" : path.substring(1) + " ") + (expected ? read : shown);
  }

  private void checkSegments() {
    for (ProvedSegment segment : proof.segments()) {
      segment.after().ifPresent(this::checkCheckpoint);
      checkCheckpoint(segment.until());
      if (!segment.leadsToItsEnd()) {
        note(
            Kind.SEGMENT_BROKEN,
            "",
            "links from number %s of partition %s to the signed hash %s"
                .formatted(
                    segment.afterSequence() + 1,
                    segment.until().partition(),
                    segment.until().link()),
            "links that lead to another one");
      }
    }
  }

  private void checkCheckpoint(Checkpoint checkpoint) {
    checkSignature(
        checkpoint.keyId(),
        checkpoint.signedBytes(),
        checkpoint.signature(),
        "checkpoint " + checkpoint.number() + " of partition " + checkpoint.partition());
  }

  private void checkPlaces() {
    for (ProvedFact fact : proof.facts()) {
      Optional<ProvedFact.Place> signed = fact.place().filter(ProvedFact.Place::isSigned);
      if (signed.isPresent() && !isInItsSegment(fact, signed.get())) {
        note(
            Kind.NOT_IN_CHAIN,
            fact.factId(),
            "content " + fact.content() + " as number " + signed.get().sequence(),
            "another one in segment " + signed.get().segment());
      }
    }
  }

  private boolean isInItsSegment(ProvedFact fact, ProvedFact.Place place) {
    if (place.segment() >= proof.segments().size()) {
      return false;
    }
    ProvedSegment segment = proof.segments().get(place.segment());
    return segment.until().partition() == place.record().partition()
        && segment.holds(place.sequence(), place.record().offset(), fact.content());
  }

  private void note(Kind kind, String factId, String expected, String found) {
    note(new ProofFinding(kind, factId, expected, found));
  }

  private void note(ProofFinding finding) {
    if (!findings.contains(finding)) {
      findings.add(finding);
    }
  }

  /** The schemas that the proof brings, for reading alone. */
  private final class ProofSchemas implements SchemaRegistry {
    @Override
    public int register(String subject, Schema schema) {
      throw new UnsupportedOperationException("A proof takes no schema");
    }

    @Override
    public int idOf(String subject, Schema schema) {
      throw new UnsupportedOperationException("A proof is only read");
    }

    @Override
    public Schema byId(int id) {
      String schema = proof.schemas().get(id);
      if (schema == null) {
        throw new UnknownSchemaInProof(id);
      }
      return new Schema.Parser().parse(schema);
    }
  }

  private static final class UnknownSchemaInProof extends RuntimeException {
    UnknownSchemaInProof(int id) {
      super("schema id " + id + ", which the proof does not bring");
    }
  }
}
