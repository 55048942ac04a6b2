package org.kornspur.api.command.fact;

import java.util.List;
import java.util.Optional;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.problem.BodyProblem;
import org.kornspur.api.problem.NotReadyDetail;
import org.kornspur.api.problem.ProblemKind;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.intake.Problem;
import org.kornspur.ingest.problem.RecordProblem;

/**
 * What became of one fact.
 *
 * @param fact empty where it breaks the contract
 * @param problems what is wrong; empty where it went in
 * @param unsentBecause why it could not be sent; empty unless that is what became of it
 * @param quarantineId its entry in the quarantine, where it is kept there
 */
public record SubmissionOutcome(
    Kind kind,
    Optional<SpecificRecord> fact,
    List<Problem> problems,
    Optional<NotReadyDetail> unsentBecause,
    Optional<String> quarantineId) {

  /** What can become of one. */
  public enum Kind {
    ACCEPTED("accepted"),
    /** The same fact had come before. */
    ALREADY_KNOWN("already-known"),
    /** It breaks the contract. */
    REFUSED("refused"),
    /** Another fact has its id. */
    CONFLICT("refused"),
    /** Who sent it may not bring it. It is not kept. */
    NOT_ALLOWED("refused"),
    /** Nothing is wrong with it, but it could not be sent. */
    UNSENT("unsent");

    private final String word;

    Kind(String word) {
      this.word = word;
    }

    /** The same in the words of the interface. */
    public String word() {
      return word;
    }
  }

  static SubmissionOutcome accepted(SpecificRecord fact) {
    return of(Kind.ACCEPTED, fact, List.of());
  }

  static SubmissionOutcome alreadyKnown(SpecificRecord fact) {
    return of(Kind.ALREADY_KNOWN, fact, List.of());
  }

  static SubmissionOutcome refused(List<Problem> problems) {
    return new SubmissionOutcome(
        Kind.REFUSED, Optional.empty(), problems, Optional.empty(), Optional.empty());
  }

  static SubmissionOutcome conflict(SpecificRecord fact) {
    Problem problem =
        Problem.of("header.factId", FactType.idOf(fact), new RecordProblem.OtherContent());
    return of(Kind.CONFLICT, fact, List.of(problem));
  }

  static SubmissionOutcome notAllowed(SpecificRecord fact, List<Problem> problems) {
    return of(Kind.NOT_ALLOWED, fact, problems);
  }

  static SubmissionOutcome unsent(SpecificRecord fact, NotReadyDetail why) {
    Problem problem = Problem.of("", why, new BodyProblem.NotTaken());
    return new SubmissionOutcome(
        Kind.UNSENT, Optional.of(fact), List.of(problem), Optional.of(why), Optional.empty());
  }

  private static SubmissionOutcome of(Kind kind, SpecificRecord fact, List<Problem> problems) {
    return new SubmissionOutcome(
        kind, Optional.of(fact), problems, Optional.empty(), Optional.empty());
  }

  SubmissionOutcome keptAs(Optional<String> entryId) {
    return new SubmissionOutcome(kind, fact, problems, unsentBecause, entryId);
  }

  Optional<String> factId() {
    return fact.map(FactType::idOf);
  }

  /**
   * The fact that went in.
   *
   * @throws ApiProblem where it did not
   */
  SpecificRecord requireIn() {
    return switch (kind) {
      case ACCEPTED, ALREADY_KNOWN -> fact.orElseThrow();
      case REFUSED -> throw new ApiProblem(ProblemKind.INVALID_FACT, problems);
      case CONFLICT -> throw new ApiProblem(ProblemKind.FACT_CONFLICT, problems);
      case NOT_ALLOWED -> throw new ApiProblem(ProblemKind.NOT_YOURS_TO_BRING, problems);
      case UNSENT -> throw new ApiProblem(ProblemKind.NOT_READY, unsentBecause.orElseThrow());
    };
  }
}
