package org.kornspur.ingest.attestation;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.charset.StandardCharsets;
import java.security.GeneralSecurityException;
import java.time.Instant;
import java.util.HexFormat;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.kornspur.contract.Attestation;
import org.kornspur.contract.Category;
import org.kornspur.contract.Downgrade;
import org.kornspur.contract.FactHeader;
import org.kornspur.contract.Signature;
import org.kornspur.contract.Withdrawal;
import org.kornspur.ingest.contract.Fingerprint;
import org.kornspur.ingest.intake.FactChecks;
import org.kornspur.ingest.intake.Problem;
import org.kornspur.ingest.json.FactParser;
import org.kornspur.ingest.json.ReadResult;
import org.kornspur.ingest.problem.ActProblem;
import org.kornspur.ingest.seal.SigningKey;
import org.kornspur.ingest.seal.TrustedKeys;

class SignedActsTest {
  private static final Instant AT = Instant.parse("2024-09-02T10:00:00Z");
  private static final SigningKey KEY = SigningKey.random();

  /** Verified by the Java platform's own Ed25519 (RFC 8032) over the message as it is described. */
  @Test
  void theSignatureIsOneOverTheDescribedMessage() throws GeneralSecurityException {
    Downgrade act = SignedActs.attest(downgrade(Category.BASIC, Category.CERTIFIED, "p-1"), KEY);
    Downgrade blank =
        new Downgrade(
            act.getHeader(),
            act.getLotId(),
            act.getFromCategory(),
            act.getToCategory(),
            act.getReason(),
            act.getSignature(),
            new Attestation("", ""));
    java.security.Signature ed25519 = java.security.Signature.getInstance("Ed25519");
    ed25519.initVerify(KEY.publicKey());
    ed25519.update(
        ("kornspur act 1\n" + Fingerprint.of(blank)).getBytes(StandardCharsets.US_ASCII));

    assertThat(ed25519.verify(HexFormat.of().parseHex(act.getAttestation().getSignature())))
        .isTrue();
    assertThat(act.getAttestation().getKeyId()).isEqualTo(KEY.keyId());
    assertThat(SignedActs.verifies(act, TrustedKeys.of(KEY.publicKey()))).isTrue();
    assertThat(FactChecks.check(act)).isEmpty();
  }

  @Test
  void anotherKeyOrAnAlteredActDoesNotVerify() {
    Downgrade act = SignedActs.attest(downgrade(Category.BASIC, Category.CERTIFIED, "p-1"), KEY);
    Downgrade altered =
        new Downgrade(
            act.getHeader(),
            "L2",
            act.getFromCategory(),
            act.getToCategory(),
            act.getReason(),
            act.getSignature(),
            act.getAttestation());

    assertThat(SignedActs.verifies(altered, TrustedKeys.of(KEY.publicKey()))).isFalse();
    assertThat(SignedActs.verifies(act, TrustedKeys.of(SigningKey.random().publicKey()))).isFalse();
    assertThat(SignedActs.problemsOf(act, TrustedKeys.of()))
        .extracting(Problem::reason)
        .containsExactly(new ActProblem.NoTrustedSignature().coded());
  }

  @Test
  void otherFactsNeedNoSignature() {
    Withdrawal withdrawal = new Withdrawal(head("p-1"), "f1", "wrong lot");

    assertThat(SignedActs.problemsOf(withdrawal, TrustedKeys.of())).isEmpty();
    assertThatThrownBy(() -> SignedActs.attest(withdrawal, KEY))
        .isInstanceOf(IllegalArgumentException.class);
  }

  @ParameterizedTest
  @CsvSource({"Release", "Suspension", "Condemnation", "Downgrade", "RefusedAct"})
  void noActIsTakenInFromSendersOrFiles(String type) {
    ReadResult read = FactParser.accept("{\"type\": \"" + type + "\"}");

    assertThat(((ReadResult.Refused) read).problems())
        .singleElement()
        .extracting(Problem::reason)
        .isEqualTo(new ActProblem.NotSentIn().coded());
  }

  /** Downwards breeder, pre-basic, basic, certified. Common practice, no source. */
  @ParameterizedTest
  @CsvSource({
    "BREEDER, PRE_BASIC, true",
    "PRE_BASIC, CERTIFIED, true",
    "BASIC, CERTIFIED, true",
    "BASIC, BASIC, false",
    "CERTIFIED, BASIC, false",
    "PRE_BASIC, BREEDER, false",
  })
  void seedIsPutIntoALowerCategoryOnly(Category from, Category to, boolean allowed) {
    Downgrade act = SignedActs.attest(downgrade(from, to, "p-1"), KEY);

    assertThat(FactChecks.check(act).stream().map(Problem::field).toList())
        .isEqualTo(allowed ? List.of() : List.of("toCategory"));
  }

  @Test
  void theSignerIsWhoRecordedIt() {
    Downgrade act = SignedActs.attest(downgrade(Category.BASIC, Category.CERTIFIED, "p-2"), KEY);

    assertThat(FactChecks.check(act))
        .extracting(Problem::field)
        .containsExactly("signature.signerId");
  }

  private static Downgrade downgrade(Category from, Category to, String recordedBy) {
    return new Downgrade(
        head(recordedBy),
        "L1",
        from,
        to,
        "no demand for the higher category",
        new Signature(
            "p-1",
            "0".repeat(64),
            "responsibility",
            AT,
            "a".repeat(64),
            null,
            "EU",
            "1",
            "FIT",
            List.of("f1"),
            List.of(),
            1,
            null),
        new Attestation("0".repeat(32), "0".repeat(128)));
  }

  private static FactHeader head(String recordedBy) {
    return new FactHeader("a1", recordedBy, AT, AT, "signed here", null, null);
  }
}
