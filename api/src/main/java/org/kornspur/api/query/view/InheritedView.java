package org.kornspur.api.query.view;

import java.util.List;
import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.kornspur.api.text.VerdictWords;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.dossier.InheritedFinding;
import org.kornspur.standing.InheritedTrouble;

@Schema(description = "A fault or an open question that was taken over from an ancestor")
public record InheritedView(
    @Schema(examples = "POST_CONTROL") String gate,
    String aspect,
    @Schema(description = "The aspect in words; else empty") String about,
    @Schema(
            description = "Whether it makes the descendant not fit, or leaves evidence owed",
            enumeration = {"CONDEMNS", "OWED"})
        InheritedFinding.Weight weight,
    @Schema(description = "The ancestor") SubjectLink origin,
    @Schema(description = "From the ancestor down to the parent, both included")
        List<SubjectLink> path,
    List<String> factIds,
    String sentence,
    @Schema(description = "What is wrong with the ancestor, the most telling first")
        List<StatementView> findings) {

  static InheritedView of(InheritedTrouble trouble, VerdictWords words) {
    return new InheritedView(
        trouble.getGate(),
        trouble.getAspect(),
        words.about(trouble.getAbout(), trouble.getAspect()),
        InheritedFinding.Weight.valueOf(trouble.getWeight()),
        SubjectLink.of(Subject.parse(trouble.getOrigin())),
        trouble.getPath().stream().map(Subject::parse).map(SubjectLink::of).toList(),
        trouble.getFactIds(),
        words.whole(VerdictWords.findings(trouble)),
        StatementView.of(VerdictWords.findings(trouble), words.words()));
  }
}
