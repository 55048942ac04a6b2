package org.kornspur.ingest.demo;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import org.kornspur.contract.Correction;
import org.kornspur.contract.FactHeader;

/** Heads of facts: who recorded what, when, and on what paper. */
final class Heads {

  private Heads() {}

  /** A fact of some hour of working day {@code on}, keyed in within the next thirty hours. */
  static FactHeader head(String factId, String recordedBy, LocalDate on, String sourceDocument) {
    Instant happened = during(factId, on);
    Draw draw = Draw.of("keyed-in", factId);
    return head(
        factId,
        recordedBy,
        happened,
        happened.plus(Duration.ofMinutes(draw.between(5, 1800))),
        sourceDocument);
  }

  static FactHeader head(
      String factId,
      String recordedBy,
      Instant happenedAt,
      Instant recordedAt,
      String sourceDocument) {
    return new FactHeader(factId, recordedBy, happenedAt, recordedAt, sourceDocument, null, null);
  }

  /** A head that takes the place of an earlier fact. */
  static FactHeader correcting(FactHeader head, String supersedes, String reason) {
    return FactHeader.newBuilder(head).setCorrection(new Correction(supersedes, reason)).build();
  }

  /** An hour of the working day, the same for the same fact. */
  static Instant during(String factId, LocalDate on) {
    return on.atStartOfDay()
        .plusMinutes(Draw.of("hour", factId).between(6 * 60, 17 * 60))
        .toInstant(ZoneOffset.UTC);
  }
}
