package org.kornspur.api.query.view;

import java.util.Collection;
import java.util.List;
import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.kornspur.ingest.contract.Subject;

@Schema(description = "That a fact was taken in. It is judged a moment later; look at the subjects")
public record ReceiptView(
    @Schema(examples = "germ-0001") String factId,
    @Schema(
            description = "already-known where the same fact had come before; it counts once",
            enumeration = {"accepted", "already-known"})
        String outcome,
    @Schema(description = "Where the fact will show") List<SubjectLink> subjects) {

  public static ReceiptView of(String factId, String outcome, Collection<Subject> subjects) {
    return new ReceiptView(factId, outcome, subjects.stream().map(SubjectLink::of).toList());
  }
}
