package org.kornspur.processors.stream;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.function.Predicate;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.processors.dossier.Entry.Superseded;

/**
 * What is known of one fact id.
 *
 * @param fingerprint of the fact; empty while only a revocation has come
 * @param subjects text forms of the subjects whose dossiers hold it
 * @param revokedBy ids of facts that supersede it, each with the note that is kept of it; of more
 *     than {@value #MOST_REVOCATIONS} the first by their ids
 */
public record RegisterEntry(
    Optional<String> fingerprint, List<String> subjects, SortedMap<String, String> revokedBy) {

  /** Of any one fact few are honest, and an entry is written anew with each. */
  static final int MOST_REVOCATIONS = 50;

  static RegisterEntry unknown() {
    return new RegisterEntry(Optional.empty(), List.of(), new TreeMap<>());
  }

  RegisterEntry withRevokedBy(SortedMap<String, String> now) {
    return new RegisterEntry(fingerprint, subjects, now);
  }

  RegisterEntry registered(String itsFingerprint, List<String> itsSubjects) {
    return new RegisterEntry(Optional.of(itsFingerprint), itsSubjects, revokedBy);
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
   * What took the place of the fact; of an act another act alone can, as {@link DossierReader}
   * says.
   *
   * @param fact the fact of this entry
   * @param isAct whether the fact with an id is the act of a person
   */
  public Optional<Superseded> superseded(SpecificRecord fact, Predicate<String> isAct) {
    boolean needsAct = FactType.of(fact).isAct();
    return revokedBy.entrySet().stream()
        .filter(by -> !needsAct || isAct.test(by.getKey()))
        .findFirst()
        .map(by -> RevocationNote.read(by.getValue()).superseded(by.getKey()));
  }
}
