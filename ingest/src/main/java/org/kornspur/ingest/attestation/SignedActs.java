package org.kornspur.ingest.attestation;

import java.util.List;
import org.apache.avro.specific.SpecificData;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.contract.Attestation;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Fingerprint;
import org.kornspur.ingest.intake.Problem;
import org.kornspur.ingest.problem.ActProblem;
import org.kornspur.ingest.problem.Given;
import org.kornspur.ingest.seal.SigningKey;
import org.kornspur.ingest.seal.TrustedKeys;

/**
 * The server's signature over acts.
 *
 * <p>What is signed is the line {@value #PURPOSE} and a line feed, followed by the {@link
 * Fingerprint} in hexadecimal of the act whose attestation holds two empty texts; in ASCII. So
 * every other field, the person's signature and seal included, is bound, and the signature cannot
 * be carried over to another record.
 *
 * <p>Source: 21 CFR 11.70, signature/record linking.
 */
public final class SignedActs {
  private static final String PURPOSE = "kornspur act 1";
  private static final String FIELD = "attestation";

  private SignedActs() {}

  /** The act with the server's signature over it. */
  public static <T extends SpecificRecord> T attest(T act, SigningKey key) {
    return with(
        act, new Attestation(key.keyId(), ServerSignature.sign(key, PURPOSE, unsigned(act))));
  }

  /**
   * Whether a trusted key signed exactly this act.
   *
   * @throws IllegalArgumentException if the record is no act
   */
  public static boolean verifies(SpecificRecord act, TrustedKeys keys) {
    Attestation attestation = attestationOf(act);
    return ServerSignature.verifies(
        keys, attestation.getKeyId(), attestation.getSignature(), PURPOSE, unsigned(act));
  }

  /** The server's signature of an act. */
  public static Attestation attestationOf(SpecificRecord act) {
    requireAct(act);
    return (Attestation) act.get(act.getSchema().getField(FIELD).pos());
  }

  /**
   * What is wrong with a fact from the topic of facts, as far as acts are concerned: an act counts
   * only if a trusted key signed it. Empty for any other fact.
   */
  public static List<Problem> problemsOf(SpecificRecord fact, TrustedKeys keys) {
    if (!FactType.of(fact).isAct() || verifies(fact, keys)) {
      return List.of();
    }
    String keyId = attestationOf(fact).getKeyId();
    return List.of(
        Problem.of(
            FIELD,
            keys.contains(keyId)
                ? new Given.OtherSignature(Problem.described(keyId))
                : new Given.SignatureOfUntrusted(Problem.described(keyId)),
            new ActProblem.NoTrustedSignature()));
  }

  /** That acts are not taken in from senders and files. */
  public static Problem notTakenIn(FactType act) {
    return Problem.of("type", act.contractName(), new ActProblem.NotSentIn());
  }

  private static String unsigned(SpecificRecord act) {
    return Fingerprint.of(with(act, new Attestation("", "")));
  }

  private static <T extends SpecificRecord> T with(T act, Attestation attestation) {
    requireAct(act);
    T copy = SpecificData.get().deepCopy(act.getSchema(), act);
    copy.put(act.getSchema().getField(FIELD).pos(), attestation);
    return copy;
  }

  private static void requireAct(SpecificRecord act) {
    if (!FactType.of(act).isAct()) {
      throw new IllegalArgumentException(act.getSchema().getName() + " is no act");
    }
  }
}
