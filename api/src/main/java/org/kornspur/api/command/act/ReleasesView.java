package org.kornspur.api.command.act;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.util.List;
import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.kornspur.api.problem.ProblemJson;
import org.kornspur.api.query.view.SubjectLink;
import org.kornspur.ingest.intake.ProblemWords;

@Schema(description = "What became of each lot. What could be signed was")
public record ReleasesView(
    @Schema(description = "Lots that were signed for", examples = "19") int signed,
    @Schema(description = "Lots that nothing was signed for", examples = "1") int leftOut,
    List<Item> items) {

  @Schema(description = "What became of one lot")
  @JsonInclude(JsonInclude.Include.NON_NULL)
  public record Item(
      SubjectLink lot,
      @Schema(
              description =
                  "As the address of the one lot answers: 201 signed; 202 signed and not processed"
                      + " yet; others as in the problem",
              examples = "201")
          int status,
      @Schema(description = "What was signed; absent where nothing was") ActView act,
      @Schema(description = "Why nothing was signed; absent where it was") ProblemJson problem) {

    private static Item of(ReleaseSigning.Outcome outcome, ProblemWords words) {
      SubjectLink lot = SubjectLink.of(outcome.lot());
      if (outcome instanceof ReleaseSigning.Outcome.Signed signed) {
        return new Item(lot, signed.act().status().getStatusCode(), signed.act().act(), null);
      }
      ReleaseSigning.Outcome.LeftOut leftOut = (ReleaseSigning.Outcome.LeftOut) outcome;
      return new Item(lot, leftOut.why().status(), null, ProblemJson.of(leftOut.why(), words));
    }
  }

  /** The outcomes in the shape of the interface. */
  public static ReleasesView of(List<ReleaseSigning.Outcome> outcomes, ProblemWords words) {
    List<Item> items = outcomes.stream().map(outcome -> Item.of(outcome, words)).toList();
    int signed = (int) items.stream().filter(item -> item.problem() == null).count();
    return new ReleasesView(signed, items.size() - signed, items);
  }
}
