package org.kornspur.api.query.proof;

import java.time.Instant;
import java.util.Base64;
import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.kornspur.ingest.chain.Checkpoint;

/** The same members as {@link Checkpoint#toJson}, by which a saved one is verified. */
@Schema(description = "The newest link of a partition at one moment, signed")
public record CheckpointView(
    int partition,
    @Schema(description = "Of the checkpoint in its partition, from 1, without gaps") long number,
    @Schema(description = "Of the link that it signs, which is also how many records are chained")
        long sequence,
    @Schema(description = "Of that link's record in the log") long offset,
    @Schema(description = "Hash of that link") String link,
    @Schema(description = "Hash of the checkpoint before") String previous,
    @Schema(description = "By the signer's clock") Instant signedAt,
    @Schema(description = "Of the key that signed") String keyId,
    @Schema(description = "That key, X.509, PEM") String publicKey,
    @Schema(description = "Ed25519, Base64") String signature) {

  public static CheckpointView of(Checkpoint checkpoint) {
    return new CheckpointView(
        checkpoint.partition(),
        checkpoint.number(),
        checkpoint.sequence(),
        checkpoint.offset(),
        checkpoint.link().toString(),
        checkpoint.previous().toString(),
        checkpoint.signedAt(),
        checkpoint.keyId(),
        checkpoint.publicKey(),
        Base64.getEncoder().encodeToString(checkpoint.signature()));
  }
}
