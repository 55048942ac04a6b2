package org.kornspur.api.web.audit;

import java.time.Instant;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.kornspur.api.query.RequestWords;
import org.kornspur.api.text.PageTexts;
import org.kornspur.ingest.chain.Checkpoint;
import org.kornspur.ingest.proof.Proof;
import org.kornspur.ingest.proof.ProofFinding;
import org.kornspur.ingest.proof.ProofVerification;
import org.kornspur.ingest.seal.TrustedKeys;
import org.kornspur.ingest.verify.VerifyResult;

/**
 * What a proof file proves.
 *
 * @param fileName as it was sent
 * @param subject as the file names it
 * @param ofGivenKey whether it was held against a key that was sent along, not those of this site
 * @param keys that signed anything in it
 * @param unchained facts from before the chain began
 * @param signedFrom time of the oldest checkpoint; empty where there is none
 * @param findings what is not as it was sealed, each in a sentence
 */
public record ProofView(
    String fileName,
    String subject,
    Instant exportedAt,
    VerifyResult result,
    boolean ofGivenKey,
    List<Key> keys,
    int facts,
    long signed,
    long unsigned,
    long unchained,
    Optional<Instant> signedFrom,
    Optional<Instant> signedUntil,
    List<String> findings) {

  /** A key that signed, and whether it is one of those it was held against. */
  public record Key(String id, boolean trusted) {}

  static ProofView of(
      String fileName, Proof proof, TrustedKeys trusted, boolean ofGivenKey, RequestWords words) {
    List<ProofFinding> findings = ProofVerification.of(proof, trusted);
    List<Checkpoint> checkpoints =
        proof.segments().stream()
            .flatMap(segment -> Stream.concat(segment.after().stream(), Stream.of(segment.until())))
            .toList();
    PageTexts texts = words.texts("audit");
    return new ProofView(
        fileName,
        proof.manifest().subject(),
        proof.manifest().exportedAt(),
        VerifyResult.of(findings, proof.signed(), proof.facts().size()),
        ofGivenKey,
        Stream.concat(
                Stream.of(proof.manifest().keyId()), checkpoints.stream().map(Checkpoint::keyId))
            .distinct()
            .map(id -> new Key(id, trusted.contains(id)))
            .toList(),
        proof.facts().size(),
        proof.signed(),
        proof.unsigned(),
        proof.unchained(),
        checkpoints.stream().map(Checkpoint::signedAt).min(Comparator.naturalOrder()),
        checkpoints.stream().map(Checkpoint::signedAt).max(Comparator.naturalOrder()),
        findings.stream().map(finding -> sentence(finding, texts)).toList());
  }

  private static String sentence(ProofFinding finding, PageTexts texts) {
    return texts.of(
        "proofFindingAt",
        texts.of("proofFinding", finding.kind()),
        finding.factId().isEmpty() ? "–" : finding.factId(),
        finding.expected(),
        finding.found());
  }

  public boolean isIntact() {
    return result == VerifyResult.INTACT;
  }

  public boolean isTampered() {
    return result == VerifyResult.TAMPERED;
  }
}
