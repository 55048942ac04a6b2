package org.kornspur.api.security.visibility;

import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.function.Predicate;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.api.kafka.ProcessorsClient;
import org.kornspur.api.problem.RightsProblem;
import org.kornspur.api.security.Caller;
import org.kornspur.api.security.Permission;
import org.kornspur.contract.FactHeader;
import org.kornspur.contract.PollenSourceSeen;
import org.kornspur.contract.Submission;
import org.kornspur.contract.Withdrawal;
import org.kornspur.ingest.attestation.SignedSubmissions;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.contract.SubjectsNamed;
import org.kornspur.ingest.intake.Problem;
import org.kornspur.processors.dossier.Entry;
import org.kornspur.processors.stream.RegisterEntry;

/**
 * Whether a caller may correct or withdraw the fact that another fact names.
 *
 * @param mayBring whether the caller could have brought a fact
 */
record CorrectionRights(
    ProcessorsClient processors, Caller caller, Predicate<SpecificRecord> mayBring) {
  /** What speaks against it; empty for a fact that corrects and withdraws nothing. */
  Optional<Problem> against(SpecificRecord fact) {
    FactHeader header = FactType.headerOf(fact);
    if (header.getCorrection() != null) {
      String field = "header.correction.supersedes";
      String factId = header.getCorrection().getSupersedes();
      Optional<SpecificRecord> earlier = find(factId);
      return againstMending(field, factId, earlier)
          .or(() -> againstOtherKind(field, factId, earlier, FactType.of(fact)))
          .or(() -> againstOtherSubject(field, factId, earlier, fact));
    }
    if (fact instanceof Withdrawal withdrawal) {
      String factId = withdrawal.getWithdrawnFactId();
      return againstMending("withdrawnFactId", factId, find(factId));
    }
    return Optional.empty();
  }

  /** Whether the caller may correct or take back a fact that is on record. */
  boolean mayMend(SpecificRecord earlier) {
    return !FactType.of(earlier).isAct()
        && !(earlier instanceof Withdrawal)
        && isOfCaller(Optional.of(earlier));
  }

  /** Who may record for others may mend everything; all others what they could have brought. */
  private boolean isOfCaller(Optional<SpecificRecord> earlier) {
    return caller.may(Permission.POST_CORRECTIONS)
        && (caller.may(Permission.RECORD_FOR_OTHERS)
            || earlier.filter(fact -> isSameHand(fact) && mayBring.test(fact)).isPresent());
  }

  private Optional<Problem> againstMending(
      String field, String factId, Optional<SpecificRecord> earlier) {
    boolean may = isOfCaller(earlier);
    if (may && earlier.filter(fact -> FactType.of(fact).isAct()).isPresent()) {
      // the processors would pass it over, and its sender believe the act undone
      return Optional.of(Problem.of(field, factId, new RightsProblem.MendsAct()));
    }
    if (may && isWithdrawal(factId)) {
      // what it took back stays taken back, and its sender believe it to count again
      return Optional.of(Problem.of(field, factId, new RightsProblem.MendsWithdrawal()));
    }
    return may
        ? Optional.empty()
        : Optional.of(Problem.of(field, factId, new RightsProblem.NotBrought()));
  }

  /** The judging would owe evidence for as long as it stands. */
  private static Optional<Problem> againstOtherKind(
      String field, String factId, Optional<SpecificRecord> earlier, FactType type) {
    return earlier
        .map(FactType::of)
        .filter(corrected -> corrected != type)
        .map(
            corrected ->
                Problem.of(field, factId, new RightsProblem.MendsOtherKind(corrected, type)));
  }

  /** What it corrects would count on where it is. */
  private static Optional<Problem> againstOtherSubject(
      String field, String factId, Optional<SpecificRecord> earlier, SpecificRecord fact) {
    return earlier
        .map(SubjectsNamed::own)
        .filter(subjects -> !subjects.isEmpty())
        .filter(subjects -> Collections.disjoint(subjects, SubjectsNamed.own(fact)))
        .map(subjects -> Problem.of(field, factId, new RightsProblem.MendsOtherSubject()));
  }

  /** Every other fact names a subject. */
  private boolean isWithdrawal(String factId) {
    return processors
        .registered(factId)
        .filter(entry -> entry.fingerprint().isPresent() && entry.subjects().isEmpty())
        .isPresent();
  }

  /**
   * Whether the caller or their enterprise brought a fact, as far as it can be told. What somebody
   * else saw of a pollen source is theirs, however near it is to the caller's crop.
   */
  private boolean isSameHand(SpecificRecord earlier) {
    boolean isOwn =
        FactType.headerOf(earlier).getRecordedBy().equals(caller.personId())
            || SignedSubmissions.of(earlier)
                .map(Submission::getEnterpriseId)
                .filter(id -> caller.enterpriseId().equals(Optional.of(id)))
                .isPresent();
    return isOwn || (caller.enterpriseId().isPresent() && !(earlier instanceof PollenSourceSeen));
  }

  private Optional<SpecificRecord> find(String factId) {
    return processors.registered(factId).map(RegisterEntry::subjects).stream()
        .flatMap(List::stream)
        .findFirst()
        .map(Subject::parse)
        .stream()
        .flatMap(subject -> processors.entries(subject).stream())
        .map(Entry::fact)
        .filter(fact -> FactType.idOf(fact).equals(factId))
        .findFirst();
  }
}
