package org.kornspur.processors.release;

import java.util.Optional;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.contract.ActKind;
import org.kornspur.contract.Condemnation;
import org.kornspur.contract.Downgrade;
import org.kornspur.contract.FactHeader;
import org.kornspur.contract.Release;
import org.kornspur.contract.Signature;
import org.kornspur.contract.Suspension;

/** What all acts that a person signed have in common. */
public record SignedAct(ActKind kind, FactHeader header, String reason, Signature signature) {

  /** The act that a fact is; empty for any other fact, refused acts included. */
  public static Optional<SignedAct> of(SpecificRecord fact) {
    if (fact instanceof Release act) {
      return Optional.of(
          new SignedAct(ActKind.RELEASE, act.getHeader(), act.getReason(), act.getSignature()));
    }
    if (fact instanceof Suspension act) {
      return Optional.of(
          new SignedAct(ActKind.SUSPEND, act.getHeader(), act.getReason(), act.getSignature()));
    }
    if (fact instanceof Condemnation act) {
      return Optional.of(
          new SignedAct(ActKind.CONDEMN, act.getHeader(), act.getReason(), act.getSignature()));
    }
    if (fact instanceof Downgrade act) {
      return Optional.of(
          new SignedAct(ActKind.DOWNGRADE, act.getHeader(), act.getReason(), act.getSignature()));
    }
    return Optional.empty();
  }

  LotRelease.Signed signed() {
    return new LotRelease.Signed(
        header.getFactId(),
        kind.name(),
        signature.getSignerId(),
        signature.getMeaning(),
        reason,
        signature.getSignedAt(),
        signature.getSeal());
  }
}
