package org.kornspur.api.command.act;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.kornspur.api.text.ReaderWords;
import org.kornspur.contract.Attestation;
import org.kornspur.contract.Condemnation;
import org.kornspur.contract.Downgrade;
import org.kornspur.contract.RefusedAct;
import org.kornspur.contract.SealedVerdict;
import org.kornspur.contract.Signature;
import org.kornspur.ingest.attestation.SignedActs;
import org.kornspur.ingest.statement.StatementJson;
import org.kornspur.ingest.statement.Value.Person;
import org.kornspur.processors.dossier.Entry;
import org.kornspur.processors.release.SignedAct;

@Schema(description = "An act in readable form, or one that was refused")
@JsonInclude(JsonInclude.Include.NON_NULL)
public record ActView(
    String actId,
    @Schema(enumeration = {"RELEASE", "SUSPEND", "CONDEMN", "DOWNGRADE"}) String kind,
    @Schema(
            description = "The act in one sentence",
            examples =
                "Released by Invented Person (p-01) on 2024-09-02T10:00:00Z as responsibility for"
                    + " the release: all is met")
        String sentence,
    @Schema(description = "Whether it was refused; then nothing was signed") boolean refused,
    @Schema(enumeration = {"NO_AUTHORITY", "NOT_AUTHENTICATED", "OUT_OF_SEQUENCE", "SEAL_CHANGED"})
        String refusalGround,
    String refusal,
    @Schema(description = "Who signed or tried to") String signerId,
    @Schema(description = "As it was when it was signed; null where it was forgotten")
        String printedName,
    @Schema(
            description =
                "Whether the printed name was forgotten; the signature holds all the same")
        boolean nameForgotten,
    Instant signedAt,
    String meaning,
    String reason,
    String toCategory,
    String ground,
    @Schema(description = "The act that this one corrects") String corrects,
    @Schema(description = "The act that corrected this one; null where it stands")
        String correctedBy,
    Signed signed,
    @Schema(description = "Key of the server that bound the signature to the act") String keyId,
    @Schema(description = "Whether a trusted key signed exactly this act")
        boolean signatureVerifies) {

  @Schema(description = "What was signed")
  @JsonInclude(JsonInclude.Include.NON_NULL)
  public record Signed(
      @Schema(description = "SHA-256 over the canonical dossier, rulebook and verdicts")
          String seal,
      @Schema(description = "Whether the lot still is exactly what was sealed")
          boolean sealIsStillSo,
      String standing,
      String category,
      String rulebookId,
      String rulebookEdition,
      @Schema(description = "Persons who must sign before it takes effect") int signaturesNeeded,
      List<String> factIds,
      List<VerdictSigned> verdicts) {}

  @Schema(description = "A verdict as the signer read it")
  @JsonInclude(JsonInclude.Include.NON_NULL)
  public record VerdictSigned(
      String gate, String aspect, String inheritedFrom, String state, String sentence) {

    static VerdictSigned of(SealedVerdict verdict, ReaderWords words) {
      return new VerdictSigned(
          verdict.getGate(),
          verdict.getAspect(),
          verdict.getInheritedFrom(),
          verdict.getState(),
          verdict.getFindings() == null
              ? verdict.getSentence()
              : words.inRow(StatementJson.read(verdict.getFindings())));
    }
  }

  static ActView of(
      Entry entry,
      SignedAct act,
      Optional<String> printedName,
      boolean verifies,
      boolean sealIsStillSo,
      ReaderWords words) {
    Signature signature = act.signature();
    Attestation attestation = SignedActs.attestationOf(entry.fact());
    return new ActView(
        act.header().getFactId(),
        act.kind().name(),
        sentence(act, printedName, words),
        false,
        null,
        null,
        signature.getSignerId(),
        printedName.orElse(null),
        printedName.isEmpty(),
        signature.getSignedAt(),
        signature.getMeaning(),
        act.reason(),
        entry.fact() instanceof Downgrade downgrade ? downgrade.getToCategory().name() : null,
        entry.fact() instanceof Condemnation condemnation ? condemnation.getGround().name() : null,
        act.header().getCorrection() == null ? null : act.header().getCorrection().getSupersedes(),
        entry.superseded().map(Entry.Superseded::byFactId).orElse(null),
        new Signed(
            signature.getSeal(),
            sealIsStillSo,
            signature.getStanding(),
            signature.getMaterial() == null ? null : signature.getMaterial().getCategory().name(),
            signature.getRulebookId(),
            signature.getRulebookEdition(),
            signature.getSignaturesNeeded(),
            signature.getSealedFactIds(),
            signature.getSealedVerdicts().stream()
                .map(verdict -> VerdictSigned.of(verdict, words))
                .toList()),
        attestation.getKeyId(),
        verifies);
  }

  static ActView of(RefusedAct refused, boolean verifies, ReaderWords words) {
    String personId = refused.getHeader().getRecordedBy();
    return new ActView(
        refused.getHeader().getFactId(),
        refused.getKind().name(),
        words.plain(
            new ActStatement.Refused(
                new Person(personId), refused.getHeader().getRecordedAt(), refused.getRefusal())),
        true,
        refused.getGround().name(),
        refused.getRefusal(),
        personId,
        null,
        false,
        refused.getHeader().getRecordedAt(),
        null,
        refused.getReason(),
        null,
        null,
        null,
        null,
        null,
        refused.getAttestation().getKeyId(),
        verifies);
  }

  /** Name, time and meaning, in the form that 21 CFR 11.50(b) asks for. */
  private static String sentence(SignedAct act, Optional<String> printedName, ReaderWords words) {
    Signature signature = act.signature();
    return words.plain(
        new ActStatement.Signed(
            act.kind(),
            signature.getSignaturesNeeded(),
            printedName,
            new Person(signature.getSignerId()),
            signature.getSignedAt(),
            signature.getMeaning(),
            act.reason()));
  }
}
