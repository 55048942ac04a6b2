package org.kornspur.api.problem;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.util.List;
import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.kornspur.ingest.intake.Problem;

/**
 * A problem document.
 *
 * <p>Source: RFC 9457, "Problem Details for HTTP APIs". {@code remedy}, {@code problems} and {@code
 * incident} are extension members.
 */
@Schema(description = "Problem document after RFC 9457, application/problem+json")
@JsonInclude(JsonInclude.Include.NON_EMPTY)
public record ProblemDocument(
    @Schema(description = "Address of the page on this kind", examples = "/problems/invalid-fact")
        String type,
    @Schema(examples = "The fact breaks the contract") String title,
    @Schema(description = "HTTP status", examples = "422") int status,
    @Schema(
            description = "What is wrong here, in a sentence",
            examples = "header.factId is absent; expected text. Fill it in; it is not optional.")
        String detail,
    @Schema(description = "What to do next") String remedy,
    @Schema(description = "Everything that is wrong, field by field") List<Problem> problems,
    @Schema(description = "Id under which the log has the rest; only for status 500")
        String incident) {

  /** A document without single problems. */
  public static ProblemDocument of(ProblemKind kind, String detail) {
    return of(kind, detail, List.of());
  }

  /** A document with everything that is wrong. */
  public static ProblemDocument of(ProblemKind kind, String detail, List<Problem> problems) {
    return new ProblemDocument(
        kind.type(), kind.title(), kind.status(), detail, kind.remedy(), problems, null);
  }

  /** A document of one or several problems, whose detail is the sentence of the first. */
  public static ProblemDocument of(ProblemKind kind, List<Problem> problems) {
    String first = problems.get(0).sentence();
    int more = problems.size() - 1;
    return of(kind, more == 0 ? first : first + " (" + more + " more)", problems);
  }

  ProblemDocument withIncident(String id) {
    return new ProblemDocument(type, title, status, detail, remedy, problems, id);
  }

  ProblemDocument withStatus(int other) {
    return new ProblemDocument(type, title, other, detail, remedy, problems, incident);
  }
}
