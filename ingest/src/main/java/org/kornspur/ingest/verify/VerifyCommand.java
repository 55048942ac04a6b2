package org.kornspur.ingest.verify;

import java.io.IOException;
import java.io.PrintStream;
import java.nio.file.Files;
import java.security.PublicKey;
import java.util.Collection;
import java.util.List;
import java.util.stream.Stream;
import org.apache.kafka.common.KafkaException;
import org.kornspur.ingest.chain.Checkpoint;
import org.kornspur.ingest.chain.LogFinding;
import org.kornspur.ingest.chain.PartitionLog;
import org.kornspur.ingest.chain.PartitionReport;
import org.kornspur.ingest.chain.UnreadableChain;
import org.kornspur.ingest.chain.Verification;
import org.kornspur.ingest.intake.CountedNoun;
import org.kornspur.ingest.proof.Proof;
import org.kornspur.ingest.proof.ProofFinding;
import org.kornspur.ingest.proof.ProofJson;
import org.kornspur.ingest.proof.ProofVerification;
import org.kornspur.ingest.seal.SealFailed;
import org.kornspur.ingest.seal.TrustedKeys;

/** Verifies from the command line; see {@link VerifyOptions#USAGE}. */
public final class VerifyCommand {

  /** Exit code: all that is signed is as it was signed. */
  public static final int INTACT = 0;

  /** Exit code: it could not be verified. */
  public static final int FAILED = 1;

  /** Exit code: there are facts, and no signature covers any of them yet. */
  public static final int NOTHING_SIGNED = 2;

  /** Exit code: something was tampered with. */
  public static final int TAMPERED = 3;

  private final PrintStream out;
  private final VerifyOptions options;

  private VerifyCommand(PrintStream out, VerifyOptions options) {
    this.out = out;
    this.options = options;
  }

  /** How it is called, in lines for a person. */
  public static String usage() {
    return VerifyOptions.USAGE;
  }

  /**
   * Runs the command.
   *
   * @param arguments without the word {@code verify}
   * @return the exit code
   */
  public static int run(PrintStream out, PrintStream err, List<String> arguments) {
    VerifyOptions options;
    try {
      options = VerifyOptions.parse(arguments);
    } catch (IllegalArgumentException | IOException e) {
      err.println(e.getMessage());
      err.print(VerifyOptions.USAGE);
      return FAILED;
    }
    try {
      return new VerifyCommand(out, options).run();
    } catch (IOException e) {
      err.println("Cannot read " + e.getMessage() + ". Check the path and permissions.");
    } catch (UnreadableChain | SealFailed | IllegalArgumentException | IllegalStateException e) {
      err.println(e.getMessage() + ".");
    } catch (KafkaException e) {
      Throwable root = e.getCause() == null ? e : e.getCause();
      err.println(
          "The cluster or log cannot be read: "
              + root.getMessage()
              + ". Check --client, --bootstrap-servers or --data-folder.");
    }
    return FAILED;
  }

  private int run() throws IOException {
    if (options.file().isPresent()) {
      return verify(ProofJson.read(Files.readAllBytes(options.file().get())));
    }
    List<PartitionLog> log =
        options.folder().isPresent()
            ? StoppedLog.read(options.folder().get())
            : ClusterLog.read(options.cluster().orElseThrow());
    return verify(log);
  }

  private int verify(List<PartitionLog> log) throws IOException {
    List<Checkpoint> anchors = anchors();
    TrustedKeys trusted =
        trusted(
            Stream.concat(
                    log.stream().flatMap(part -> part.checkpoints().stream()), anchors.stream())
                .flatMap(checkpoint -> checkpoint.ownKey().stream())
                .toList());
    List<PartitionReport> reports = Verification.of(log, trusted, anchors);
    reports.forEach(this::print);
    List<LogFinding> findings =
        reports.stream().flatMap(report -> report.findings().stream()).toList();
    long signed = reports.stream().mapToLong(PartitionReport::signed).sum();
    long records = reports.stream().mapToLong(PartitionReport::records).sum();
    findings.forEach(finding -> out.println(finding.kind() + " " + finding.sentence()));
    return conclude(VerifyResult.of(findings, signed, records), signed, records, "signed");
  }

  private int conclude(VerifyResult result, long signed, long records, String sealed) {
    out.println(
        switch (result) {
          case TAMPERED -> "TAMPERED: what is named above is not as it was " + sealed + ".";
          case NOTHING_SIGNED ->
              "NOTHING SIGNED: no checkpoint covers any of "
                  + CountedNoun.of(records, "record(s)")
                  + ".";
          case INTACT -> "INTACT: " + signed + " of " + records + " are as they were signed.";
        });
    return result.exitCode();
  }

  private void print(PartitionReport report) {
    out.println(
        "Partition %d: %s, %d signed by %s%s, %d chained and not signed yet,"
                .formatted(
                    report.partition(),
                    CountedNoun.of(report.records(), "record(s)"),
                    report.signed(),
                    CountedNoun.of(report.checkpoints(), "checkpoint(s)"),
                    report.signedUntil().map(at -> " until " + at).orElse(""),
                    report.unsigned())
            + " %d not chained yet%s."
                .formatted(
                    report.unchained(),
                    report.beforeChain() == 0
                        ? ""
                        : ", " + report.beforeChain() + " from before the chain began"));
  }

  private int verify(Proof proof) throws IOException {
    TrustedKeys trusted =
        trusted(
            Stream.concat(
                    Stream.of(proof.manifest().publicKey()),
                    proof.segments().stream()
                        .flatMap(
                            segment ->
                                Stream.concat(segment.after().stream(), Stream.of(segment.until())))
                        .map(Checkpoint::publicKey))
                .distinct()
                .flatMap(pem -> TrustedKeys.ifOne(pem).stream())
                .toList());
    List<ProofFinding> findings = ProofVerification.of(proof, trusted);
    out.println(
        "%s, exported %s: %s, %d signed, %d chained and not signed yet, %d from before the"
                .formatted(
                    proof.manifest().subject(),
                    proof.manifest().exportedAt(),
                    CountedNoun.of(proof.facts().size(), "fact(s)"),
                    proof.signed(),
                    proof.unsigned(),
                    proof.unchained())
            + " chain began.");
    findings.forEach(finding -> out.println(finding.kind() + " " + finding.sentence()));
    long facts = proof.facts().size();
    return conclude(
        VerifyResult.of(findings, proof.signed(), facts), proof.signed(), facts, "sealed");
  }

  private TrustedKeys trusted(Collection<PublicKey> thatComeAlong) throws IOException {
    if (options.trust().isPresent()) {
      TrustedKeys trusted = TrustedKeys.in(options.trust().get());
      if (trusted.keyIds().isEmpty()) {
        throw new IllegalArgumentException(
            "Folder "
                + options.trust().get()
                + " holds no public key, so nothing can be held against one. Give the folder with"
                + " the signer's *.pub.pem files");
      }
      return trusted;
    }
    TrustedKeys brought = TrustedKeys.of(thatComeAlong);
    out.println(
        "CAUTION: no --trust was given. The keys used are those that came along; compare their ids"
            + " with those that the signer published: "
            + String.join(", ", brought.keyIds()));
    return brought;
  }

  private List<Checkpoint> anchors() throws IOException {
    if (options.anchors().isEmpty()) {
      return List.of();
    }
    return Checkpoint.readAll(Files.readAllBytes(options.anchors().get()));
  }
}
