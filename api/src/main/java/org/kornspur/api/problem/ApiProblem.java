package org.kornspur.api.problem;

import java.util.List;
import org.kornspur.ingest.intake.Problem;

/** Ends a request with a problem document. */
public final class ApiProblem extends RuntimeException {
  private static final long serialVersionUID = 1L;

  private final transient ProblemDocument document;

  public ApiProblem(ProblemDocument document) {
    super(document.detail());
    this.document = document;
  }

  public ApiProblem(ProblemKind kind, String detail) {
    this(ProblemDocument.of(kind, detail));
  }

  public ApiProblem(ProblemKind kind, List<Problem> problems) {
    this(ProblemDocument.of(kind, problems));
  }

  public ProblemDocument document() {
    return document;
  }
}
