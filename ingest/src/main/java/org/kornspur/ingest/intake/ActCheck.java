package org.kornspur.ingest.intake;

import java.util.regex.Pattern;
import org.kornspur.contract.Attestation;
import org.kornspur.contract.Condemnation;
import org.kornspur.contract.Downgrade;
import org.kornspur.contract.FactHeader;
import org.kornspur.contract.RefusedAct;
import org.kornspur.contract.Release;
import org.kornspur.contract.Signature;
import org.kornspur.contract.Suspension;
import org.kornspur.ingest.contract.CategoryRank;
import org.kornspur.ingest.problem.ActProblem;
import org.kornspur.ingest.problem.Given;
import org.kornspur.ingest.statement.Value.Person;

/**
 * Checks that an act is consistent: head and signature name one person and time, hashes are hashes.
 */
final class ActCheck {
  private static final Pattern HEXADECIMAL = Pattern.compile("[0-9a-f]*");
  private static final int KEY_ID_DIGITS = 32;
  private static final int SHA_256_DIGITS = 64;
  private static final int ED25519_DIGITS = 128;

  private ActCheck() {}

  static void check(Release release, Problems into) {
    signed(release.getHeader(), release.getSignature(), into);
    attested(release.getAttestation(), into);
  }

  static void check(Suspension suspension, Problems into) {
    signed(suspension.getHeader(), suspension.getSignature(), into);
    attested(suspension.getAttestation(), into);
  }

  static void check(Condemnation condemnation, Problems into) {
    oneSubject(condemnation.getLotId(), condemnation.getCropId(), into);
    signed(condemnation.getHeader(), condemnation.getSignature(), into);
    attested(condemnation.getAttestation(), into);
  }

  static void check(Downgrade downgrade, Problems into) {
    if (!CategoryRank.isLower(downgrade.getToCategory(), downgrade.getFromCategory())) {
      into.add(
          "toCategory",
          downgrade.getToCategory().name(),
          new ActProblem.NotLower(downgrade.getFromCategory()));
    }
    signed(downgrade.getHeader(), downgrade.getSignature(), into);
    attested(downgrade.getAttestation(), into);
  }

  static void check(RefusedAct refused, Problems into) {
    oneSubject(refused.getLotId(), refused.getCropId(), into);
    attested(refused.getAttestation(), into);
  }

  private static void oneSubject(String lotId, String cropId, Problems into) {
    if ((lotId == null) == (cropId == null)) {
      into.add(
          "lotId",
          lotId == null ? new Given.NeitherLotNorCrop() : new Given.LotAndCrop(),
          new ActProblem.NotOneSubject());
    }
  }

  private static void signed(FactHeader header, Signature signature, Problems into) {
    if (!header.getRecordedBy().equals(signature.getSignerId())) {
      into.add(
          "signature.signerId",
          signature.getSignerId(),
          new ActProblem.OtherSigner(new Person(header.getRecordedBy())));
    }
    if (!header.getRecordedAt().equals(signature.getSignedAt())) {
      into.add(
          "signature.signedAt",
          signature.getSignedAt(),
          new ActProblem.OtherTime(header.getRecordedAt()));
    }
    hex("signature.signerNameDigest", signature.getSignerNameDigest(), SHA_256_DIGITS, into);
    hex("signature.seal", signature.getSeal(), SHA_256_DIGITS, into);
  }

  private static void attested(Attestation attestation, Problems into) {
    hex("attestation.keyId", attestation.getKeyId(), KEY_ID_DIGITS, into);
    hex("attestation.signature", attestation.getSignature(), ED25519_DIGITS, into);
  }

  private static void hex(String field, String value, int digits, Problems into) {
    if (value.length() != digits || !HEXADECIMAL.matcher(value).matches()) {
      into.add(field, value, new ActProblem.NotHexadecimal(digits));
    }
  }
}
