package org.kornspur.api.problem;

import java.util.List;
import java.util.OptionalLong;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.intake.Problem;
import org.kornspur.ingest.problem.Given;
import org.kornspur.ingest.statement.Statement;

/** Ends a request in which something is wrong, or that asks for what there is not. */
public final class ApiProblem extends ProblemException {
  public ApiProblem(ProblemDocument document) {
    super(document, OptionalLong.empty());
  }

  public ApiProblem(ProblemKind kind, Statement detail) {
    this(ProblemDocument.of(kind, detail));
  }

  public ApiProblem(ProblemKind kind, List<Problem> problems) {
    this(ProblemDocument.of(kind, problems));
  }

  public ApiProblem(ProblemKind kind, Problem problem) {
    this(kind, List.of(problem));
  }

  /** For a subject that there is not, or that the caller does not see: the answer is the same. */
  public static ApiProblem noFactNames(Subject subject, RecordDetail.Hint whereToLook) {
    return notFound(
        new RecordDetail.Unknown(subject.kind(), Given.text(subject.id(), false), whereToLook));
  }

  public static ApiProblem notFound(Detail detail) {
    return new ApiProblem(ProblemKind.NOT_FOUND, detail);
  }

  /** For a sound request that the facts give no answer to. */
  public static ApiProblem refused(Statement detail) {
    return new ApiProblem(ProblemKind.REQUEST_REFUSED, detail);
  }
}
