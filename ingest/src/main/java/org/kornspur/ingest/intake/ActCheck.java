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

/** An act hangs together: head and signature name one person and time, and hashes are hashes. */
final class ActCheck {
  private static final Pattern KEY_ID = Pattern.compile("[0-9a-f]{32}");
  private static final Pattern SHA_256 = Pattern.compile("[0-9a-f]{64}");
  private static final Pattern ED25519 = Pattern.compile("[0-9a-f]{128}");

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
          "a category below " + downgrade.getFromCategory(),
          "Name a lower category; seed is never put into a higher one");
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
      into.addDescribed(
          "lotId",
          lotId == null ? "neither a lot nor a crop" : "a lot and a crop",
          "either a lot or a crop",
          "Sign one act for each");
    }
  }

  private static void signed(FactHeader header, Signature signature, Problems into) {
    if (!header.getRecordedBy().equals(signature.getSignerId())) {
      into.add(
          "signature.signerId",
          signature.getSignerId(),
          "the person of header.recordedBy, " + header.getRecordedBy(),
          "Have the act signed anew");
    }
    if (!header.getRecordedAt().equals(signature.getSignedAt())) {
      into.add(
          "signature.signedAt",
          signature.getSignedAt(),
          "the time of header.recordedAt, " + header.getRecordedAt(),
          "Have the act signed anew");
    }
    hex("signature.signerNameDigest", signature.getSignerNameDigest(), SHA_256, into);
    hex("signature.seal", signature.getSeal(), SHA_256, into);
  }

  private static void attested(Attestation attestation, Problems into) {
    hex("attestation.keyId", attestation.getKeyId(), KEY_ID, into);
    hex("attestation.signature", attestation.getSignature(), ED25519, into);
  }

  private static void hex(String field, String value, Pattern form, Problems into) {
    if (!form.matcher(value).matches()) {
      into.add(field, value, form + " in hexadecimal", "Have the act signed anew");
    }
  }
}
