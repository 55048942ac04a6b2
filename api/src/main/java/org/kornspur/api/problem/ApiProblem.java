package org.kornspur.api.problem;

import java.util.List;
import org.kornspur.api.text.Language;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.intake.Problem;
import org.kornspur.ingest.problem.Given;
import org.kornspur.ingest.statement.Statement;

/** Ends a request with a problem document. */
public final class ApiProblem extends RuntimeException {
  private static final long serialVersionUID = 1L;

  private final transient ProblemDocument document;

  public ApiProblem(ProblemDocument document) {
    super(document.detail(ProblemLanguage.words(Language.ENGLISH)));
    this.document = document;
  }

  public ApiProblem(ProblemKind kind, Statement detail) {
    this(ProblemDocument.of(kind, detail));
  }

  public ApiProblem(ProblemKind kind, List<Problem> problems) {
    this(ProblemDocument.of(kind, problems));
  }

  /** For a subject that there is not, or that the caller does not see: the answer is the same. */
  public static ApiProblem noFactNames(Subject subject, RecordDetail.Hint whereToLook) {
    return notFound(
        new RecordDetail.Unknown(subject.kind(), Given.text(subject.id(), false), whereToLook));
  }

  public static ApiProblem notFound(Detail detail) {
    return new ApiProblem(ProblemKind.NOT_FOUND, detail);
  }

  public ProblemDocument document() {
    return document;
  }
}
