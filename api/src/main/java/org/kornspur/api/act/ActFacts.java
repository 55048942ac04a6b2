package org.kornspur.api.act;

import java.util.UUID;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.contract.Attestation;
import org.kornspur.contract.Category;
import org.kornspur.contract.Condemnation;
import org.kornspur.contract.Correction;
import org.kornspur.contract.Downgrade;
import org.kornspur.contract.FactHeader;
import org.kornspur.contract.Release;
import org.kornspur.contract.Signature;
import org.kornspur.contract.Suspension;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.dossier.Material;
import org.kornspur.processors.release.ReleaseSheet;

/** Makes the fact of an act from what was asked for and the signature under it. */
final class ActFacts {

  /** What stands as the source of acts. */
  static final String DOCUMENT = "signed here";

  private ActFacts() {}

  /** The fact, not yet attested. */
  static SpecificRecord of(ActRequest request, ReleaseSheet sheet, Signature signature) {
    Subject subject = sheet.dossier().subject();
    FactHeader header =
        new FactHeader(
            "act-" + UUID.randomUUID(),
            signature.getSignerId(),
            signature.getSignedAt(),
            signature.getSignedAt(),
            DOCUMENT,
            request.corrects().map(act -> new Correction(act, request.reason())).orElse(null));
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

  private static Category category(ReleaseSheet sheet) {
    return sheet.assessment().material().map(Material::category).orElseThrow();
  }
}
