package org.kornspur.api.query.view;

import java.util.List;
import java.util.stream.Stream;
import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.kornspur.api.text.VerdictWords;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.dossier.InheritedFinding;
import org.kornspur.processors.stream.StandingRecords;
import org.kornspur.standing.LotStanding;
import org.kornspur.standing.StandingState;
import org.kornspur.standing.VerdictState;

@Schema(description = "What is still to be brought for one crop or lot")
public record OwedView(
    SubjectLink subject,
    StandingState state,
    @Schema(nullable = true, description = "Null while its origin is unknown")
        MaterialView material,
    List<Item> owed) {

  @Schema(description = "One piece of evidence that is owed")
  public record Item(
      @Schema(examples = "GERMINATION") String gate,
      String aspect,
      @Schema(description = "Whose evidence is missing: this crop or lot, or an ancestor")
          SubjectLink of,
      @Schema(description = "Whether it is owed by an ancestor") boolean inherited,
      @Schema(
              nullable = true,
              description = "What is to be brought; null where an ancestor owes it")
          String bring,
      String sentence) {}

  /** What a standing still owes, its own first. */
  public static OwedView of(LotStanding standing, VerdictWords words) {
    SubjectLink self = SubjectLink.of(Subject.parse(standing.getSubject()));
    Stream<Item> own =
        standing.getVerdicts().stream()
            .filter(verdict -> verdict.getState() == VerdictState.OWED)
            .map(
                verdict ->
                    new Item(
                        verdict.getGate(),
                        verdict.getAspect(),
                        self,
                        false,
                        words.evidenceLine(verdict),
                        words.whole(verdict)));
    Stream<Item> inherited =
        standing.getInherited().stream()
            .filter(trouble -> StandingRecords.weighs(trouble, InheritedFinding.Weight.OWED))
            .map(
                trouble ->
                    new Item(
                        trouble.getGate(),
                        trouble.getAspect(),
                        SubjectLink.of(Subject.parse(trouble.getOrigin())),
                        true,
                        null,
                        words.whole(VerdictWords.findings(trouble))));
    return new OwedView(
        self,
        standing.getState(),
        standing.getMaterial() == null ? null : MaterialView.of(standing.getMaterial()),
        Stream.concat(own, inherited).toList());
  }
}
