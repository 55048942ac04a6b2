package org.kornspur.ingest.attestation;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.security.GeneralSecurityException;
import java.security.Signature;
import java.time.Instant;
import java.util.HexFormat;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.kornspur.contract.FactHeader;
import org.kornspur.contract.SenderRole;
import org.kornspur.contract.Submission;
import org.kornspur.contract.Withdrawal;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Fingerprint;
import org.kornspur.ingest.intake.FactChecks;
import org.kornspur.ingest.intake.Problem;
import org.kornspur.ingest.json.AvroJson;
import org.kornspur.ingest.json.FactParser;
import org.kornspur.ingest.json.ReadResult;
import org.kornspur.ingest.problem.SubmissionProblem;
import org.kornspur.ingest.seal.SigningKey;
import org.kornspur.ingest.seal.TrustedKeys;

class SignedSubmissionsTest {
  private static final Instant AT = Instant.parse("2024-09-02T10:00:00Z");
  private static final SigningKey KEY = SigningKey.random();
  private static final TrustedKeys TRUSTED = TrustedKeys.of(KEY.publicKey());
  private static final SignedSubmissions.Sender GROWER =
      new SignedSubmissions.Sender("p-1", SenderRole.MULTIPLIER, Optional.of("ENT-1"));

  /** Verified by the Java platform's own Ed25519 (RFC 8032) over the message as it is described. */
  @Test
  void theSignatureIsOneOverTheDescribedMessage() throws GeneralSecurityException {
    Withdrawal signed = SignedSubmissions.sign(withdrawal("wrong lot"), GROWER, KEY);
    Submission submission = signed.getHeader().getSubmission();
    Submission blank = new Submission("p-1", SenderRole.MULTIPLIER, "ENT-1", "", "");
    Signature ed25519 = Signature.getInstance("Ed25519");
    ed25519.initVerify(KEY.publicKey());
    ed25519.update(
        ("kornspur submission 1\n"
                + Fingerprint.of(withdrawal("wrong lot"))
                + "\n"
                + Fingerprint.of(blank))
            .getBytes(StandardCharsets.US_ASCII));

    assertThat(ed25519.verify(HexFormat.of().parseHex(submission.getSignature()))).isTrue();
    assertThat(submission.getKeyId()).isEqualTo(KEY.keyId());
    assertThat(SignedSubmissions.problemsOf(signed, TRUSTED)).isEmpty();
    assertThat(FactChecks.check(signed)).isEmpty();
  }

  @Test
  void whoBroughtAFactIsNoPartOfWhatItSays() {
    Withdrawal bare = withdrawal("wrong lot");

    assertThat(Fingerprint.of(SignedSubmissions.sign(bare, GROWER, KEY)))
        .isEqualTo(Fingerprint.of(bare));
    assertThat(AvroJson.write(SignedSubmissions.sign(bare, GROWER, KEY)))
        .isEqualTo(AvroJson.write(bare));
  }

  @Test
  void nothingMayBeAlteredOrCarriedOver() {
    Withdrawal signed = SignedSubmissions.sign(withdrawal("wrong lot"), GROWER, KEY);
    Submission submission = signed.getHeader().getSubmission();
    Withdrawal carriedOver = withdrawal("another reason", submission);
    Withdrawal raised =
        withdrawal(
            "wrong lot", Submission.newBuilder(submission).setRole(SenderRole.QUALITY).build());

    assertThat(SignedSubmissions.problemsOf(carriedOver, TRUSTED)).hasSize(1);
    assertThat(SignedSubmissions.problemsOf(raised, TRUSTED)).hasSize(1);
    assertThat(SignedSubmissions.problemsOf(signed, TrustedKeys.of()))
        .singleElement()
        .satisfies(
            problem -> {
              assertThat(problem.field()).isEqualTo("header.submission");
              assertThat(problem.reason())
                  .isEqualTo(new SubmissionProblem.NoTrustedSignature().coded());
            });
  }

  @Test
  void nobodyOutsideMaySayWhoBroughtAFact() {
    Withdrawal signed = SignedSubmissions.sign(withdrawal("wrong lot"), GROWER, KEY);
    var json = AvroJson.write(signed);
    assertThat(FactParser.accept(json)).isInstanceOf(ReadResult.Fact.class);
    json.withObjectProperty("header")
        .set("submission", AvroJson.write(FactType.headerOf(signed).getSubmission()));

    assertThat(FactParser.accept(json))
        .isInstanceOfSatisfying(
            ReadResult.Refused.class,
            refused ->
                assertThat(refused.problems())
                    .extracting(Problem::field)
                    .containsExactly("header.submission"));
  }

  private static Withdrawal withdrawal(String reason) {
    return withdrawal(reason, null);
  }

  private static Withdrawal withdrawal(String reason, Submission submission) {
    return new Withdrawal(
        new FactHeader("w1", "p-1", AT, AT, "note", null, submission), "f1", reason);
  }
}
