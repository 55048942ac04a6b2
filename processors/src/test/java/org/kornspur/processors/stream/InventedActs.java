package org.kornspur.processors.stream;

import java.time.Instant;
import java.util.List;
import org.kornspur.contract.ActKind;
import org.kornspur.contract.Attestation;
import org.kornspur.contract.Category;
import org.kornspur.contract.Condemnation;
import org.kornspur.contract.CondemnationGround;
import org.kornspur.contract.Correction;
import org.kornspur.contract.Downgrade;
import org.kornspur.contract.FactHeader;
import org.kornspur.contract.RefusalGround;
import org.kornspur.contract.RefusedAct;
import org.kornspur.contract.Release;
import org.kornspur.contract.SealedMaterial;
import org.kornspur.contract.Signature;
import org.kornspur.contract.Suspension;
import org.kornspur.ingest.attestation.SignedActs;
import org.kornspur.processors.release.ReleaseSheet;

/** Acts of invented persons, signed with the key that {@link DrivenTopology} trusts. */
final class InventedActs {
  private static final Instant START = Instant.parse("2024-01-01T00:00:00Z");
  private static final String NAME_DIGEST = "0".repeat(64);

  private InventedActs() {}

  static Instant day(int day) {
    return START.plusSeconds(86_400L * day);
  }

  static Signature signed(ReleaseSheet sheet, int day, String signerId, int needed) {
    return sheet.signature(signerId, NAME_DIGEST, "responsibility for release", day(day), needed);
  }

  /** A signature under no sheet: for tests in which what was sealed may be anything. */
  static Signature signed(
      int day, String signerId, int needed, String sealDigit, List<String> sealedFactIds) {
    return new Signature(
        signerId,
        NAME_DIGEST,
        "responsibility for release",
        day(day),
        sealDigit.repeat(64),
        new SealedMaterial("HYB-1", "A-1", "COMPONENT", Category.BASIC, 2024, "EU"),
        "EU",
        "1",
        "FIT",
        sealedFactIds,
        List.of(),
        needed,
        null);
  }

  static Release release(String id, String lotId, Signature signature) {
    return SignedActs.attest(
        new Release(head(id, signature, null), lotId, "all is met", signature, none()),
        DrivenTopology.KEY);
  }

  static Suspension suspension(String id, String lotId, Signature signature, Correction corrects) {
    return SignedActs.attest(
        new Suspension(
            head(id, signature, corrects), lotId, "customer complaint", signature, none()),
        DrivenTopology.KEY);
  }

  static Condemnation condemnation(
      String id, String lotId, CondemnationGround ground, Signature signature) {
    return SignedActs.attest(
        new Condemnation(
            head(id, signature, null), lotId, null, ground, "wrong seed", signature, none()),
        DrivenTopology.KEY);
  }

  static Downgrade downgrade(String id, String lotId, Category to, Signature signature) {
    return SignedActs.attest(
        new Downgrade(
            head(id, signature, null),
            lotId,
            Category.BREEDER,
            to,
            "no demand for the higher category",
            signature,
            none()),
        DrivenTopology.KEY);
  }

  static RefusedAct refused(String id, String lotId, int day) {
    return SignedActs.attest(
        new RefusedAct(
            new FactHeader(id, "p-1", day(day), day(day), "acts", null, null),
            lotId,
            null,
            ActKind.RELEASE,
            "all is met",
            RefusalGround.OUT_OF_SEQUENCE,
            "It is released already",
            none()),
        DrivenTopology.KEY);
  }

  private static Attestation none() {
    return new Attestation("", "");
  }

  private static FactHeader head(String id, Signature signature, Correction corrects) {
    return new FactHeader(
        id,
        signature.getSignerId(),
        signature.getSignedAt(),
        signature.getSignedAt(),
        "acts",
        corrects,
        null);
  }
}
