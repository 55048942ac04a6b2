package org.kornspur.ingest.chain;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.DataOutputStream;
import java.nio.charset.StandardCharsets;
import java.security.KeyFactory;
import java.security.MessageDigest;
import java.security.Signature;
import java.security.spec.X509EncodedKeySpec;
import java.util.Base64;
import java.util.Random;
import org.junit.jupiter.api.Test;

/**
 * Makes the chain once more from its description alone (package documentation), with SHA-256 of the
 * Java platform over bytes written by hand, and checks signatures with the Java platform. Nothing
 * of the project's own hashing or signing is used.
 */
class OutsideChainTest {

  @Test
  void anyoneCanMakeTheChainFromItsDescription() throws Exception {
    InventedLog.Part part = new InventedLog(new Random(7), 1, 100, 7).parts.get(0);

    byte[] link = genesis(0);
    for (int i = 0; i < part.records.size(); i++) {
      LogRecord record = part.records.get(i);
      link = link(link, 0, i + 1, record.offset(), content(record));
      assertThat(part.links.get(i).link().bytes()).isEqualTo(link);
    }
  }

  @Test
  void anyoneCanCheckACheckpointWithAnotherLibrary() throws Exception {
    InventedLog.Part part = new InventedLog(new Random(8), 1, 30, 7).parts.get(0);

    byte[] previous = genesis(0);
    for (Checkpoint checkpoint : part.checkpoints) {
      byte[] signed = signed(checkpoint, previous);
      byte[] x509 =
          Base64.getMimeDecoder()
              .decode(checkpoint.publicKey().replaceAll("-----[A-Z ]+-----", ""));
      Signature verifier = Signature.getInstance("Ed25519");
      verifier.initVerify(
          KeyFactory.getInstance("Ed25519").generatePublic(new X509EncodedKeySpec(x509)));
      verifier.update(signed);
      assertThat(verifier.verify(checkpoint.signature())).isTrue();
      previous = signed;
    }
    assertThat(part.checkpoints).hasSize(4);
  }

  private interface Writing {
    void to(DataOutputStream out) throws Exception;
  }

  private static byte[] sha256(String use, Writing parts) throws Exception {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    DataOutputStream out = new DataOutputStream(bytes);
    out.write(use.getBytes(StandardCharsets.US_ASCII));
    out.writeByte(0);
    parts.to(out);
    return MessageDigest.getInstance("SHA-256").digest(bytes.toByteArray());
  }

  private static byte[] genesis(int partition) throws Exception {
    return sha256(
        "kornspur/genesis/v1",
        out -> {
          bytes(out, "kornspur.facts".getBytes(StandardCharsets.UTF_8));
          out.writeInt(partition);
        });
  }

  private static byte[] content(LogRecord record) throws Exception {
    return sha256(
        "kornspur/record/v1",
        out -> {
          bytes(out, record.key());
          bytes(out, record.value());
          out.writeLong(record.timestampMs());
          out.writeInt(record.headers().size());
          for (LogRecord.Header header : record.headers()) {
            bytes(out, header.name().getBytes(StandardCharsets.UTF_8));
            bytes(out, header.value());
          }
        });
  }

  private static byte[] link(
      byte[] previous, int partition, long sequence, long offset, byte[] content) throws Exception {
    return sha256(
        "kornspur/link/v1",
        out -> {
          out.write(previous);
          out.writeInt(partition);
          out.writeLong(sequence);
          out.writeLong(offset);
          out.write(content);
        });
  }

  private static byte[] signed(Checkpoint checkpoint, byte[] previous) throws Exception {
    return sha256(
        "kornspur/checkpoint/v1",
        out -> {
          out.writeInt(checkpoint.partition());
          out.writeLong(checkpoint.number());
          out.writeLong(checkpoint.sequence());
          out.writeLong(checkpoint.offset());
          out.write(checkpoint.link().bytes());
          out.write(previous);
          out.writeLong(checkpoint.signedAt().toEpochMilli());
          bytes(out, checkpoint.keyId().getBytes(StandardCharsets.UTF_8));
        });
  }

  private static void bytes(DataOutputStream out, byte[] bytes) throws Exception {
    out.writeInt(bytes == null ? -1 : bytes.length);
    if (bytes != null) {
      out.write(bytes);
    }
  }
}
