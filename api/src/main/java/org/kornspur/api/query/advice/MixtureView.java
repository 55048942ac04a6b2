package org.kornspur.api.query.advice;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.kornspur.api.query.view.AsOf;
import org.kornspur.api.query.view.SubjectLink;
import org.kornspur.api.text.ReaderWords;
import org.kornspur.contract.HybridDeclared;
import org.kornspur.contract.ShareBasis;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.statement.Value.Amount;
import org.kornspur.ingest.statement.Value.Fact;
import org.kornspur.processors.advice.MixtureAdvice;
import org.kornspur.processors.advice.MixtureStatement;

/** Kilograms of each lot for a technical mixture, or why it cannot be mixed. */
@Schema(description = "Kilograms of each lot, or why it cannot be mixed. Advice, not a gate")
public record MixtureView(
    SubjectLink hybrid,
    @Schema(description = "Whether it can be mixed") boolean possible,
    @Schema(description = "What to mix, or why it cannot be done and what to do") String sentence,
    @Schema(description = "What it is and is not") String advice,
    @Schema(description = "Mass wanted, kilograms") double massKg,
    @Schema(description = "Share of pollinator aimed at, percent on the basis")
        double targetSharePercent,
    @Schema(description = "Percentage points to either side") double tolerancePercentPoints,
    ShareBasis basis,
    @Schema(description = "The breeder's ratio and where it stands") Ratio breeder,
    @Schema(description = "Lots to mix; empty where it cannot be done") List<Part> parts,
    @Schema(description = "Share of pollinator that comes out, by basis, as far as tests allow")
        Map<ShareBasis, ShareView> shares,
    @Schema(description = "Whether the stock forced the share off the target") boolean offTarget,
    @Schema(
            nullable = true,
            description =
                "Whether the share lies within the breeder's ratio; null where it cannot be told")
        Boolean withinBreedersRatio,
    @Schema(description = "The most that could be mixed, kilograms") double mostKg,
    @Schema(description = "Candidates that were not used at all, with reasons, at most 100")
        List<Refused> passedOver,
    @Schema(description = "How many there are") int passedOverTotal,
    AsOf asOf) {
  private static final int MOST_SHOWN = 100;
  private static final double GRAMS_IN_KG = 1000;

  @Schema(description = "The breeder's ratio")
  public record Ratio(
      double sharePercent,
      double tolerancePercentPoints,
      ShareBasis basis,
      @Schema(description = "Fact of the hybrid's master data") String source) {}

  @Schema(description = "A lot to mix")
  public record Part(
      SubjectLink lot, @Schema(description = "Kilograms, to the gram") double massKg) {}

  @Schema(description = "A candidate that was not used")
  public record Refused(SubjectLink lot, String reason) {}

  static MixtureView of(HybridDeclared hybrid, MixtureAdvice advice, ReaderWords words, AsOf asOf) {
    MixtureAdvice.Request request = advice.request();
    Map<ShareBasis, ShareView> shares = new EnumMap<>(ShareBasis.class);
    advice
        .mixture()
        .ifPresent(
            mixture ->
                mixture
                    .share()
                    .forEach(
                        (basis, share) ->
                            shares.put(basis, ShareView.of(share, mixture.interval().get(basis)))));
    List<Part> parts =
        advice.portions().stream()
            .map(
                portion ->
                    new Part(
                        SubjectLink.of(Subject.lot(portion.lotId())),
                        Math.round(portion.massKg() * GRAMS_IN_KG) / GRAMS_IN_KG))
            .toList();
    return new MixtureView(
        SubjectLink.of(Subject.hybrid(request.hybridId())),
        advice.refusal().isEmpty(),
        words.plain(advice.refusal().orElseGet(() -> toMix(parts))),
        words.plain(new MixtureStatement.AdviceOnly()),
        request.massKg(),
        request.targetPercent(),
        request.tolerancePercentPoints(),
        request.basis(),
        new Ratio(
            hybrid.getPollinatorSharePercent(),
            hybrid.getTolerancePercentPoints(),
            hybrid.getShareBasis(),
            words.plain(new MixtureStatement.MasterData(new Fact(hybrid.getHeader().getFactId())))),
        parts,
        shares,
        advice.mixture().map(MixtureAdvice.Mixture::offTarget).orElse(false),
        within(hybrid, shares.get(hybrid.getShareBasis())),
        advice.mostKg(),
        advice.passedOver().stream()
            .limit(MOST_SHOWN)
            .map(
                passed ->
                    new Refused(
                        SubjectLink.of(Subject.lot(passed.lotId())), words.plain(passed.reason())))
            .toList(),
        advice.passedOver().size(),
        asOf);
  }

  private static MixtureStatement toMix(List<Part> parts) {
    return new MixtureStatement.Mix(
        parts.stream()
            .map(
                part ->
                    new MixtureStatement.OfLot(
                        Amount.kilograms(part.massKg()), Subject.parse(part.lot().subject())))
            .toList());
  }

  private static Boolean within(HybridDeclared hybrid, ShareView share) {
    if (share == null) {
      return null;
    }
    double off = Math.abs(share.percent() - hybrid.getPollinatorSharePercent());
    return off <= hybrid.getTolerancePercentPoints();
  }
}
