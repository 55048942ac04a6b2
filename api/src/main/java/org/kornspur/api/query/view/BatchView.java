package org.kornspur.api.query.view;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.util.List;
import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.kornspur.api.problem.ProblemView;

@Schema(description = "What became of each fact of a batch. The good ones went in")
public record BatchView(
    @Schema(description = "Id of this request; refused input is in the quarantine under it")
        String requestId,
    @Schema(examples = "98") long accepted,
    @Schema(examples = "1") long alreadyKnown,
    @Schema(examples = "1") long refused,
    @Schema(description = "To be sent again: nothing is wrong with them", examples = "0")
        long unsent,
    List<Item> items) {

  @Schema(description = "What became of one fact of a batch")
  @JsonInclude(JsonInclude.Include.NON_NULL)
  public record Item(
      @Schema(description = "Line of the NDJSON text, from 1; absent for a list") Integer line,
      @Schema(description = "Place in the list, from 0; absent for NDJSON") Integer index,
      @Schema(enumeration = {"accepted", "already-known", "refused", "unsent"}) String outcome,
      @Schema(description = "Absent where the fact could not be read") String factId,
      @Schema(description = "Where the fact will show") List<SubjectLink> subjects,
      @Schema(description = "What is wrong, where it was refused") List<ProblemView> problems,
      @Schema(description = "Its entry in the quarantine, where it was refused")
          String quarantine) {}
}
