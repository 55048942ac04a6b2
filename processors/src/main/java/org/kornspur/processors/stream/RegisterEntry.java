package org.kornspur.processors.stream;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.function.Predicate;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.contract.Submission;
import org.kornspur.ingest.attestation.SignedSubmissions;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.processors.dossier.Entry.Superseded;

/**
 * What is known of one fact id.
 *
 * @param fingerprint of the fact; empty while only a revocation has come
 * @param subjects text forms of the subjects whose dossiers hold it
 * @param revokedBy ids of facts that supersede it, each with the note that is kept of it; of more
 *     than {@value #MOST_REVOCATIONS} the first by their ids
 * @param proof the strongest proof of who brought it, by the role of the sender; empty where it
 *     came from files and plain producers alone
 */
public record RegisterEntry(
    Optional<String> fingerprint,
    List<String> subjects,
    SortedMap<String, String> revokedBy,
    Optional<String> proof) {

  /** Of any one fact few are honest, and an entry is written again with each. */
  static final int MOST_REVOCATIONS = 50;

  static RegisterEntry unknown() {
    return new RegisterEntry(Optional.empty(), List.of(), new TreeMap<>(), Optional.empty());
  }

  RegisterEntry withRevokedBy(SortedMap<String, String> now) {
    return new RegisterEntry(fingerprint, subjects, now, proof);
  }

  RegisterEntry registered(SpecificRecord fact, String itsFingerprint, List<String> itsSubjects) {
    return new RegisterEntry(Optional.of(itsFingerprint), itsSubjects, revokedBy, proofOf(fact));
  }

  /**
   * Whether the same fact comes with a better proof of who brought it than any before. So what
   * counts in the end does not hang on which of them came first.
   *
   * @param fact the fact of this entry, come again
   */
  boolean isProvenBetterBy(SpecificRecord fact) {
    return proofOf(fact)
        .filter(now -> proof.isEmpty() || now.compareTo(proof.get()) > 0)
        .isPresent();
  }

  /**
   * Whether the same fact is brought in a role that may do more than any before.
   *
   * @param fact the fact of this entry, with the proof of who brings it
   */
  public boolean lacksRoleOf(SpecificRecord fact) {
    return isProvenBetterBy(fact)
        && !proof.map(RegisterEntry::role).equals(proofOf(fact).map(RegisterEntry::role));
  }

  private static char role(String proof) {
    return proof.charAt(0);
  }

  /** Text that is the greater the more the role of the sender may do; signatures decide ties. */
  private static Optional<String> proofOf(SpecificRecord fact) {
    return SignedSubmissions.of(fact).map(RegisterEntry::proofOf);
  }

  private static String proofOf(Submission submission) {
    return submission.getRole().ordinal() + " " + submission.getSignature();
  }

  boolean mayHaveMoreRevocations() {
    return revokedBy.size() >= MOST_REVOCATIONS;
  }

  /** One revocation that found no room in the entry of its fact. */
  static RegisterEntry overflow(Map.Entry<String, String> revocation) {
    TreeMap<String, String> one = new TreeMap<>();
    one.put(revocation.getKey(), revocation.getValue());
    return unknown().withRevokedBy(one);
  }

  /**
   * What took the place of the fact, by the rule of {@link DossierReader}.
   *
   * @param fact the fact of this entry
   * @param isAct whether the fact with an id is the act of a person
   * @param isWithdrawn whether the fact with an id was withdrawn itself
   * @param trustsProducers whether the site vouches for all who can write to its topic of facts
   */
  public Optional<Superseded> superseded(
      SpecificRecord fact,
      Predicate<String> isAct,
      Predicate<String> isWithdrawn,
      boolean trustsProducers) {
    boolean needsAct = FactType.of(fact).isAct();
    return revokedBy.entrySet().stream()
        .filter(
            by ->
                isAct.test(by.getKey())
                    || (!needsAct
                        && (trustsProducers || RevocationNote.read(by.getValue()).isProven())
                        && !isWithdrawn.test(by.getKey())))
        .findFirst()
        .map(by -> RevocationNote.read(by.getValue()).superseded(by.getKey()));
  }

  /** Whether a withdrawal took this fact back, with effect, and nothing is in its place. */
  public boolean isWithdrawn(boolean trustsProducers) {
    return RevocationNote.onlyWithdraw(
        revokedBy.values().stream()
            .map(RevocationNote::read)
            .filter(by -> trustsProducers || by.isProven())
            .toList());
  }
}
