package org.kornspur.api.query.proof;

import java.time.Instant;
import java.util.List;
import org.eclipse.microprofile.openapi.annotations.media.Schema;

@Schema(description = "How far the log of facts is chained and signed")
public record LogView(
    Instant answeredAt,
    @Schema(description = "Records that are chained, over all partitions", examples = "2812")
        long chained,
    @Schema(description = "Of these, how many a checkpoint covers", examples = "2790") long signed,
    @Schema(description = "Records that are chained and that no checkpoint covers yet")
        long notSignedYet,
    @Schema(
            nullable = true,
            description = "Records that came in and are not chained yet; null where not known")
        Long notChainedYet,
    @Schema(description = "Id of the key with which the instance that answers signs") String keyId,
    @Schema(description = "Keys whose signatures this site trusts") List<KeyView> publicKeys,
    List<PartitionView> partitions,
    @Schema(
            examples =
                "Keep the newest checkpoints outside of this site: they show later whether anything"
                    + " before them was cut off.")
        String note) {

  @Schema(description = "A public key")
  public record KeyView(String keyId, @Schema(description = "X.509, PEM") String publicKey) {}

  @Schema(description = "One partition of the log")
  public record PartitionView(
      int partition,
      long chained,
      long signed,
      @Schema(nullable = true, description = "The newest checkpoint; null where none is signed")
          CheckpointView newestCheckpoint) {}
}
