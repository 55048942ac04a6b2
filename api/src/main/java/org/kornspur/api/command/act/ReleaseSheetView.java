package org.kornspur.api.command.act;

import java.time.LocalDate;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.function.ToIntFunction;
import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.kornspur.api.query.view.StandingView;
import org.kornspur.api.text.ReaderWords;
import org.kornspur.contract.ActKind;
import org.kornspur.contract.Category;
import org.kornspur.processors.release.ActRules;
import org.kornspur.processors.release.ActRules.Wish;
import org.kornspur.processors.release.ReleaseSheet;

@Schema(description = "Exactly what a person would sign")
public record ReleaseSheetView(
    @Schema(description = "To be given back with the signature") String seal,
    @Schema(description = "What the seal is the SHA-256 of, in UTF-8") String sealedText,
    @Schema(description = "The standing as it is shown, with every gate and caution")
        StandingView standing,
    @Schema(description = "What to mind before signing") String caution,
    @Schema(description = "Which acts follow on the present state, for the one who asks")
        List<Possible> acts) {
  @Schema(description = "An act, and what stands against it")
  public record Possible(
      @Schema(enumeration = {"RELEASE", "SUSPEND", "CONDEMN", "DOWNGRADE"}) String kind,
      boolean possible,
      @Schema(nullable = true, description = "Why not, and what to do; null where it is possible")
          String why,
      @Schema(description = "Persons who must sign before it takes effect") int signaturesNeeded) {}

  static ReleaseSheetView of(
      ReleaseSheet sheet,
      StandingView standing,
      String signerId,
      ToIntFunction<ActKind> signaturesNeeded,
      ReaderWords words) {
    return new ReleaseSheetView(
        sheet.seal().hex(),
        sheet.text(),
        standing,
        words.caution("signing"),
        Arrays.stream(ActKind.values())
            .map(kind -> possible(kind, sheet, signerId, signaturesNeeded.applyAsInt(kind), words))
            .toList());
  }

  private static Possible possible(
      ActKind kind, ReleaseSheet sheet, String signerId, int signaturesNeeded, ReaderWords words) {
    Optional<String> refusal =
        ActRules.refusal(sheet, wish(kind), signerId, LocalDate.now()).map(words::plain);
    return new Possible(kind.name(), refusal.isEmpty(), refusal.orElse(null), signaturesNeeded);
  }

  /** The act with the least that it asks for; whether a category is low enough is told apart. */
  private static Wish wish(ActKind kind) {
    return switch (kind) {
      case RELEASE -> new Wish.ToRelease();
      case SUSPEND -> new Wish.ToSuspend(Optional.empty());
      case CONDEMN -> new Wish.ToCondemn();
      case DOWNGRADE -> new Wish.ToDowngrade(Category.CERTIFIED);
    };
  }
}
