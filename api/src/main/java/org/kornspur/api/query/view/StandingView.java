package org.kornspur.api.query.view;

import java.time.Instant;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.kornspur.api.query.view.Caution.Treatment;
import org.kornspur.api.readmodel.ReceiptTimes;
import org.kornspur.api.text.Addresses;
import org.kornspur.api.text.FirstReasonWords;
import org.kornspur.api.text.VerdictWords;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.standing.LotStanding;
import org.kornspur.standing.StandingState;

@Schema(description = "The standing of one crop or lot with all that it rests on")
public record StandingView(
    @Schema(examples = "lot:F1-24-007") String subject,
    @Schema(examples = "F1-24-007") String id,
    @Schema(enumeration = {"lot", "crop"}) String kind,
    StandingState state,
    @Schema(
            description = "The standing in one sentence",
            examples = "Lot F1-24-007 is fit. All gates that apply are met (12).")
        String sentence,
    @Schema(nullable = true, description = "Null while its origin is unknown")
        MaterialView material,
    @Schema(
            nullable = true,
            description = "Title and edition of the rulebook that it was judged by")
        String rulebook,
    List<GateView> gates,
    @Schema(
            description =
                "Where the rulebook asks for nothing, and what it judges as what; not among the"
                    + " gates and never counted as met")
        List<RuleNoteView> ruleNotes,
    @Schema(description = "Faults and open questions of ancestors") List<InheritedView> inherited,
    @Schema(description = "Mass that came in; 0 for a crop") double heldKg,
    @Schema(description = "Mass that went out; 0 for a crop") double givenOutKg,
    @Schema(description = "Mass that is left") double leftKg,
    @Schema(nullable = true, description = "Enterprise that grows the crop or declared the lot")
        SubjectLink holder,
    List<SubjectLink> parents,
    @Schema(nullable = true, description = "What persons did; null for a crop") ReleaseView release,
    List<Caution> cautions,
    Instant changedAt,
    @Schema(
            nullable = true,
            description =
                "Fingerprint of the rules that it was judged by: rulebooks, gates and version of"
                    + " the judging; null where an earlier release judged it",
            examples = "3f1c0d5e8a7b49620d1e2f3a4b5c6d7e")
        String rules,
    @Schema(description = "Where to read on: facts, trace back, trace forward, owed, acts")
        Map<String, String> links,
    AsOf asOf) {

  /** The standing in the shape of the interface. */
  public static StandingView of(
      LotStanding standing,
      Treatment treatment,
      ReceiptTimes receipts,
      Instant changedAt,
      AsOf asOf,
      FirstReasonWords words) {
    VerdictWords verdicts = words.verdicts();
    Subject subject = Subject.parse(standing.getSubject());
    return new StandingView(
        subject.toString(),
        subject.id(),
        subject.kind().word(),
        standing.getState(),
        words.sentence(standing),
        Optional.ofNullable(standing.getMaterial()).map(MaterialView::of).orElse(null),
        standing.getRulebook(),
        standing.getVerdicts().stream().map(one -> GateView.of(one, verdicts)).toList(),
        standing.getRuleNotes().stream().map(one -> RuleNoteView.of(one, verdicts)).toList(),
        standing.getInherited().stream().map(one -> InheritedView.of(one, verdicts)).toList(),
        standing.getHeldKg(),
        standing.getGivenOutKg(),
        standing.getHeldKg() - standing.getGivenOutKg(),
        Optional.ofNullable(standing.getHolder())
            .map(Subject::enterprise)
            .map(SubjectLink::of)
            .orElse(null),
        standing.getParents().stream().map(Subject::parse).map(SubjectLink::of).toList(),
        subject.kind() == Subject.Kind.LOT
            ? ReleaseView.of(standing.getRelease(), receipts, verdicts)
            : null,
        Caution.of(standing, treatment, verdicts.words()),
        changedAt,
        standing.getRules(),
        links(subject),
        asOf);
  }

  private static Map<String, String> links(Subject subject) {
    String self = Addresses.of(subject);
    Map<String, String> links = new LinkedHashMap<>();
    links.put("self", self);
    links.put("facts", self + "/facts");
    links.put("back", self + "/trace?direction=back");
    links.put("forward", self + "/trace?direction=forward");
    links.put("owed", self + "/owed");
    links.put("acts", self + "/acts");
    return links;
  }
}
