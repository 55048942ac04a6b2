package org.kornspur.ingest.proof;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.Optional;
import org.kornspur.ingest.chain.LogRecord;
import org.kornspur.ingest.seal.Hash;

/**
 * One fact of an exported dossier.
 *
 * @param fact in plain JSON, for people; the wire bytes are what is proved
 * @param wire the fact in wire format
 * @param schemaId id of its writer's schema among the schemas of the proof
 * @param place where it lies in the log; empty where it came before the chain began
 */
public record ProvedFact(
    String factId, JsonNode fact, byte[] wire, int schemaId, Optional<Place> place) {

  /**
   * The record of a fact and its place in the chain.
   *
   * @param sequence number in the chain of its partition
   * @param segment index of the segment that covers it; -1 while no checkpoint does
   */
  public record Place(LogRecord record, long sequence, int segment) {

    /** Whether a checkpoint covers it. */
    public boolean isSigned() {
      return segment >= 0;
    }
  }

  /** Content hash of its record, as the chain has it; of the wire bytes where it has none. */
  Hash content() {
    return place
        .map(at -> at.record().content())
        .orElseGet(() -> Hash.in("kornspur/unchained/v1").add(wire).done());
  }
}
