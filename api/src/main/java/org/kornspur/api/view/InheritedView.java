package org.kornspur.api.view;

import java.util.List;
import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.standing.InheritedTrouble;

/** A fault or an open question that was taken over from an ancestor. */
@Schema(description = "A fault or an open question that was taken over from an ancestor")
public record InheritedView(
    @Schema(examples = "POST_CONTROL") String gate,
    String aspect,
    @Schema(
            description = "Whether it makes the descendant not fit, or leaves evidence owed",
            enumeration = {"CONDEMNS", "OWED"})
        String weight,
    @Schema(description = "The ancestor") SubjectLink origin,
    @Schema(description = "From the ancestor down to the parent, both included")
        List<SubjectLink> path,
    List<String> factIds,
    String sentence) {

  static InheritedView of(InheritedTrouble trouble) {
    return new InheritedView(
        trouble.getGate(),
        trouble.getAspect(),
        trouble.getWeight(),
        SubjectLink.of(Subject.parse(trouble.getOrigin())),
        trouble.getPath().stream().map(Subject::parse).map(SubjectLink::of).toList(),
        trouble.getFactIds(),
        trouble.getSentence());
  }
}
