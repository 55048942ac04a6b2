package org.kornspur.ingest.proof;

import java.time.Instant;
import java.util.List;
import java.util.Map;
import org.kornspur.ingest.chain.ProvedSegment;
import org.kornspur.ingest.seal.SigningKey;

/**
 * An exported dossier with its proof.
 *
 * @param facts in the order of the manifest
 * @param schemas writers' schemas in JSON, by the id that the wire bytes name
 */
public record Proof(
    Manifest manifest,
    List<ProvedFact> facts,
    Map<Integer, String> schemas,
    List<ProvedSegment> segments) {

  public Proof {
    facts = List.copyOf(facts);
    schemas = Map.copyOf(schemas);
    segments = List.copyOf(segments);
  }

  /** Seals what a dossier holds at a moment. */
  public static Proof seal(
      String subject,
      Instant at,
      List<ProvedFact> facts,
      Map<Integer, String> schemas,
      List<ProvedSegment> segments,
      SigningKey key) {
    return new Proof(Manifest.sign(subject, at, facts, schemas, key), facts, schemas, segments);
  }

  /** How many facts a checkpoint covers. */
  public long signed() {
    return facts.stream()
        .filter(fact -> fact.place().filter(ProvedFact.Place::isSigned).isPresent())
        .count();
  }

  /** How many facts are chained, and wait for a checkpoint. */
  public long unsigned() {
    return facts.stream()
        .filter(fact -> fact.place().filter(place -> !place.isSigned()).isPresent())
        .count();
  }

  /** How many facts came before the chain began. */
  public long unchained() {
    return facts.stream().filter(fact -> fact.place().isEmpty()).count();
  }
}
