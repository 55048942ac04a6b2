package org.kornspur.api.problem;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.util.List;
import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.kornspur.ingest.intake.ProblemWords;

/**
 * A problem document.
 *
 * <p>Source: RFC 9457, "Problem Details for HTTP APIs". {@code remedy}, {@code problems} and {@code
 * incident} are extension members.
 */
@Schema(
    name = "ProblemDocument",
    description = "Problem document after RFC 9457, application/problem+json")
@JsonInclude(JsonInclude.Include.NON_EMPTY)
public record ProblemJson(
    @Schema(description = "Address of the page on this kind", examples = "/problems/invalid-fact")
        String type,
    @Schema(examples = "The fact breaks the contract") String title,
    @Schema(description = "HTTP status", examples = "422") int status,
    @Schema(
            description = "What is wrong here, in a sentence",
            examples = "header.factId is absent; expected text. Fill it in; it is not optional.")
        String detail,
    @Schema(description = "What to do next") String remedy,
    @Schema(description = "Everything that is wrong, field by field") List<ProblemView> problems,
    @Schema(description = "Id under which the log has the rest; only for status 500")
        String incident) {

  public static ProblemJson of(ProblemDocument document, ProblemWords words) {
    return new ProblemJson(
        document.kind().type(),
        words.plain(document.kind().title()),
        document.status(),
        document.detail(words),
        words.plain(document.kind().remedy()),
        ProblemView.all(document.problems(), words),
        document.incident().orElse(null));
  }

  /** The same, of a part of what was sent. */
  public ProblemJson at(String place) {
    return new ProblemJson(type, title, status, place + ": " + detail, remedy, problems, incident);
  }
}
