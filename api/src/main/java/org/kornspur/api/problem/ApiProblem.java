package org.kornspur.api.problem;

import java.util.List;
import org.kornspur.api.text.Language;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.intake.Problem;

/** Ends a request with a problem document. */
public final class ApiProblem extends RuntimeException {
  private static final long serialVersionUID = 1L;

  private final transient ProblemDocument document;

  public ApiProblem(ProblemDocument document) {
    super(document.detail(ProblemLanguage.words(Language.ENGLISH)));
    this.document = document;
  }

  public ApiProblem(ProblemKind kind, String detail) {
    this(ProblemDocument.of(kind, detail));
  }

  public ApiProblem(ProblemKind kind, List<Problem> problems) {
    this(ProblemDocument.of(kind, problems));
  }

  /**
   * For a subject that there is not, or that the caller does not see: the answer is the same.
   *
   * @param whatToDo a sentence that says where to look
   */
  public static ApiProblem noFactNames(Subject subject, String whatToDo) {
    return new ApiProblem(
        ProblemKind.NOT_FOUND,
        "No fact names the "
            + subject.kind().word()
            + " "
            + Problem.shown(subject.id())
            + ". "
            + whatToDo);
  }

  public ProblemDocument document() {
    return document;
  }
}
