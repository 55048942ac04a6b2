package org.kornspur.ingest.attestation;

import java.util.List;
import java.util.Optional;
import org.apache.avro.specific.SpecificData;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.contract.FactHeader;
import org.kornspur.contract.SenderRole;
import org.kornspur.contract.Submission;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Fingerprint;
import org.kornspur.ingest.intake.Problem;
import org.kornspur.ingest.problem.Given;
import org.kornspur.ingest.problem.SubmissionProblem;
import org.kornspur.ingest.seal.SigningKey;
import org.kornspur.ingest.seal.TrustedKeys;

/**
 * The server's signature that somebody brought a fact through the interface.
 *
 * <p>What is signed are three lines separated by line feeds, in ASCII: {@value #PURPOSE}, the
 * {@link Fingerprint} of the fact, which leaves the submission out, and the fingerprint of the
 * submission whose key id and signature are empty texts.
 */
public final class SignedSubmissions {
  private static final String PURPOSE = "kornspur submission 1";

  /** Where a fact holds it. */
  private static final String FIELD = "header.submission";

  private SignedSubmissions() {}

  /**
   * Who brings a fact.
   *
   * @param personId who is logged in
   * @param role the strongest role that lets the person bring it
   * @param enterpriseId whom the person works for
   */
  public record Sender(String personId, SenderRole role, Optional<String> enterpriseId) {}

  /** The fact with the proof of who brought it, in place of any that it had. */
  public static <T extends SpecificRecord> T sign(T fact, Sender sender, SigningKey key) {
    Submission unsigned =
        new Submission(
            sender.personId(), sender.role(), sender.enterpriseId().orElse(null), "", "");
    String signature =
        ServerSignature.sign(key, PURPOSE, Fingerprint.of(fact), Fingerprint.of(unsigned));
    Submission submission =
        Submission.newBuilder(unsigned).setKeyId(key.keyId()).setSignature(signature).build();
    T copy = SpecificData.get().deepCopy(fact.getSchema(), fact);
    copy.put(
        fact.getSchema().getField("header").pos(),
        FactHeader.newBuilder(FactType.headerOf(fact)).setSubmission(submission).build());
    return copy;
  }

  /** The submission of a fact; empty for a fact from a file or a plain producer. */
  public static Optional<Submission> of(SpecificRecord fact) {
    return Optional.ofNullable(FactType.headerOf(fact).getSubmission());
  }

  /** What is wrong with the submission of a fact from the topic; empty where it has none. */
  public static List<Problem> problemsOf(SpecificRecord fact, TrustedKeys keys) {
    Optional<Submission> claimed = of(fact);
    if (claimed.isEmpty() || verifies(fact, claimed.get(), keys)) {
      return List.of();
    }
    String keyId = claimed.get().getKeyId();
    return List.of(
        Problem.of(
            FIELD,
            keys.contains(keyId)
                ? new Given.OtherSignature(Problem.described(keyId))
                : new Given.SignatureOfUntrusted(Problem.described(keyId)),
            new SubmissionProblem.NoTrustedSignature()));
  }

  /** That nobody outside the server may say who brought a fact. */
  public static Problem notTakenIn() {
    return Problem.of(FIELD, new Given.Submission(), new SubmissionProblem.NotSentIn());
  }

  private static boolean verifies(SpecificRecord fact, Submission submission, TrustedKeys keys) {
    return ServerSignature.verifies(
        keys,
        submission.getKeyId(),
        submission.getSignature(),
        PURPOSE,
        Fingerprint.of(fact),
        unsigned(submission));
  }

  private static String unsigned(Submission submission) {
    return Fingerprint.of(Submission.newBuilder(submission).setKeyId("").setSignature("").build());
  }
}
