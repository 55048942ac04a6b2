package org.kornspur.ingest.chain;

import java.time.Instant;
import java.util.List;
import java.util.Optional;

/**
 * What the verification of one partition came to.
 *
 * @param records in the log
 * @param beforeChain records from before the chain began, which nothing covers
 * @param signed records that checkpoints cover and that were found as they were signed
 * @param unsigned records that are chained, and that no checkpoint covers yet
 * @param unchained records after the last link
 * @param checkpoints that a trusted key signed
 * @param signedUntil time of the newest of them, by its signer's clock
 * @param findings first place of each kind; empty where all is as it was signed
 */
public record PartitionReport(
    int partition,
    long records,
    long beforeChain,
    long signed,
    long unsigned,
    long unchained,
    long checkpoints,
    Optional<Instant> signedUntil,
    List<LogFinding> findings) {

  public PartitionReport {
    findings = List.copyOf(findings);
  }
}
