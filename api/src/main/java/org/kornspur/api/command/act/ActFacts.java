package org.kornspur.api.command.act;

import java.util.List;
import java.util.UUID;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.api.problem.ActDetail;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.problem.ProblemDocument;
import org.kornspur.api.problem.ProblemKind;
import org.kornspur.contract.ActKind;
import org.kornspur.contract.Attestation;
import org.kornspur.contract.Category;
import org.kornspur.contract.Condemnation;
import org.kornspur.contract.Correction;
import org.kornspur.contract.Downgrade;
import org.kornspur.contract.FactHeader;
import org.kornspur.contract.Release;
import org.kornspur.contract.Signature;
import org.kornspur.contract.Suspension;
import org.kornspur.ingest.attestation.SignedActs;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.intake.FactChecks;
import org.kornspur.ingest.intake.Problem;
import org.kornspur.ingest.seal.SigningKey;
import org.kornspur.processors.dossier.Material;
import org.kornspur.processors.release.ReleaseSheet;

/** Makes the fact of an act from what was asked for and the signature under it. */
final class ActFacts {

  /** What stands as the source of acts. */
  static final String DOCUMENT = "signed here";

  private ActFacts() {}

  private static SpecificRecord of(ActRequest request, ReleaseSheet sheet, Signature signature) {
    Subject subject = sheet.dossier().subject();
    FactHeader header =
        new FactHeader(
            "act-" + UUID.randomUUID(),
            signature.getSignerId(),
            signature.getSignedAt(),
            signature.getSignedAt(),
            DOCUMENT,
            request.corrects().map(act -> new Correction(act, request.reason())).orElse(null),
            null);
    Attestation none = new Attestation("", "");
    return switch (request.kind()) {
      case RELEASE -> new Release(header, subject.id(), request.reason(), signature, none);
      case SUSPEND -> new Suspension(header, subject.id(), request.reason(), signature, none);
      case CONDEMN ->
          new Condemnation(
              header,
              subject.kind() == Subject.Kind.LOT ? subject.id() : null,
              subject.kind() == Subject.Kind.CROP ? subject.id() : null,
              request.ground().orElseThrow(),
              request.reason(),
              signature,
              none);
      case DOWNGRADE ->
          new Downgrade(
              header,
              subject.id(),
              category(sheet),
              request.toCategory().orElseThrow(),
              request.reason(),
              signature,
              none);
    };
  }

  /**
   * The act, attested, as it can be kept: the processors refuse a record that is too large, and
   * that must be known before somebody is told that it was signed. What holds seed back is signed
   * in any case.
   *
   * @throws ApiProblem if it cannot be kept
   */
  static SpecificRecord recordable(
      ActRequest request, ReleaseSheet sheet, Signature signature, SigningKey key) {
    SpecificRecord whole = SignedActs.attest(of(request, sheet, signature), key);
    List<Problem> problems = FactChecks.check(whole);
    if (problems.isEmpty()) {
      return whole;
    }
    if (request.kind() != ActKind.RELEASE) {
      SpecificRecord brief =
          SignedActs.attest(of(request, sheet, ReleaseSheet.withoutLists(signature)), key);
      problems = FactChecks.check(brief);
      if (problems.isEmpty()) {
        return brief;
      }
    }
    throw new ApiProblem(
        ProblemDocument.of(ProblemKind.INVALID_FACT, new ActDetail.BrokenContract(), problems));
  }

  private static Category category(ReleaseSheet sheet) {
    return sheet.assessment().material().map(Material::category).orElseThrow();
  }
}
