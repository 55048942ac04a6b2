package org.kornspur.processors.release;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import org.kornspur.contract.Signature;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.standards.RulesFingerprint;

/**
 * Exactly what a person signs: a dossier, what the gates say of it, what has come of its release,
 * and the seal over it.
 */
public record ReleaseSheet(Dossier dossier, Assessment assessment, LotRelease release, Seal seal) {

  /**
   * The sheet of a dossier as it is now. The second person signs the very seal that the first
   * signed, so it is of the version that a waiting proposal has.
   *
   * @param assess what the gates say of a dossier
   */
  public static ReleaseSheet of(Dossier dossier, Function<Dossier, Assessment> assess) {
    ReleaseDecision.Decided decided =
        ReleaseDecision.decide(dossier, assess.apply(dossier), assess);
    return new ReleaseSheet(
        dossier,
        decided.assessment(),
        decided.release().orElse(LotRelease.NOTHING),
        proposal(decided).orElseGet(() -> Seal.of(dossier, decided.assessment())));
  }

  private static Optional<Seal> proposal(ReleaseDecision.Decided decided) {
    return decided
        .release()
        .filter(release -> release.step() == LotRelease.Step.PROPOSED)
        .map(release -> new Seal(release.signatures().get(0).seal()));
  }

  /** Whether a seal, of whichever version, is over what this sheet shows. */
  public boolean isSealedBy(String hex) {
    return Seal.isOver(hex, dossier, assessment);
  }

  /** The canonical text that the seal is over. */
  public String text() {
    return seal.equals(Seal.of(dossier, assessment))
        ? CanonicalDossier.text(dossier, assessment)
        : CanonicalDossier.versionOne(dossier, assessment);
  }

  /**
   * A person's signature under this sheet.
   *
   * @param nameDigest digest of the printed name, hexadecimal
   * @param meaning what the signature means, in words
   * @param at when it is given, in whole milliseconds
   * @param signaturesNeeded persons who must sign before the act takes effect
   */
  public Signature signature(
      String signerId, String nameDigest, String meaning, Instant at, int signaturesNeeded) {
    return new Signature(
        signerId,
        nameDigest,
        meaning,
        at,
        seal.hex(),
        assessment.material().map(SealedVerdicts::of).orElse(null),
        assessment.rulebook().map(Assessment.Book::id).orElse(null),
        assessment.rulebook().map(Assessment.Book::edition).orElse(null),
        assessment.standing().name(),
        SealedVerdicts.factIds(dossier),
        SealedVerdicts.of(assessment),
        signaturesNeeded,
        assessment.rules().map(RulesFingerprint::hex).orElse(null));
  }

  /**
   * The same signature without the list of what was sealed, which the seal covers all the same. For
   * an act that holds seed back: that must not fail because there is too much to list.
   */
  public static Signature withoutLists(Signature signature) {
    return Signature.newBuilder(signature)
        .setSealedFactIds(List.of())
        .setSealedVerdicts(List.of())
        .build();
  }
}
