package org.kornspur.ingest.chain;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.MappingIterator;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.security.PublicKey;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Base64;
import java.util.List;
import java.util.Optional;
import org.kornspur.ingest.seal.Hash;
import org.kornspur.ingest.seal.SigningKey;
import org.kornspur.ingest.seal.TrustedKeys;

/**
 * The newest link of a partition at one moment, signed.
 *
 * @param number of the checkpoint in its partition, from 1, without gaps
 * @param sequence of the link that it signs, which is also how many records the chain has
 * @param offset of that link's record in the log
 * @param link hash of that link
 * @param previous hash of the checkpoint before; of the genesis for the first
 * @param signedAt by the signer's clock, whole milliseconds
 * @param keyId of the key that signed
 * @param publicKey that key as PEM, to look it up by; it is trusted only where the verifier says so
 * @param signature Ed25519, 64 bytes, over {@link #signedBytes}
 */
public record Checkpoint(
    int partition,
    long number,
    long sequence,
    long offset,
    Hash link,
    Hash previous,
    Instant signedAt,
    String keyId,
    String publicKey,
    byte[] signature) {

  /** The topic that checkpoints go to, each in the partition that it is of; kept for ever. */
  public static final String TOPIC = "kornspur.checkpoints";

  private static final ObjectMapper JSON = new ObjectMapper();

  static Checkpoint sign(
      SigningKey key,
      int partition,
      long number,
      long sequence,
      long offset,
      Hash link,
      Hash previous,
      Instant at) {
    Instant signedAt = at.truncatedTo(ChronoUnit.MILLIS);
    byte[] message =
        message(partition, number, sequence, offset, link, previous, signedAt, key.keyId()).bytes();
    return new Checkpoint(
        partition,
        number,
        sequence,
        offset,
        link,
        previous,
        signedAt,
        key.keyId(),
        TrustedKeys.pem(key.publicKey()),
        key.sign(message));
  }

  private static Hash message(
      int partition,
      long number,
      long sequence,
      long offset,
      Hash link,
      Hash previous,
      Instant signedAt,
      String keyId) {
    return Hash.in("kornspur/checkpoint/v1")
        .add(partition)
        .add(number)
        .add(sequence)
        .add(offset)
        .add(link)
        .add(previous)
        .add(signedAt.toEpochMilli())
        .add(keyId)
        .done();
  }

  /**
   * What is signed: SHA-256 over {@code kornspur/checkpoint/v1}, zero, partition, number, sequence,
   * offset, link, previous, the time in milliseconds since 1970, and the key id after its length.
   */
  public byte[] signedBytes() {
    return hash().bytes();
  }

  /** The hash by which the next checkpoint names this one. */
  public Hash hash() {
    return message(partition, number, sequence, offset, link, previous, signedAt, keyId);
  }

  public boolean isSignedBy(TrustedKeys trusted) {
    return trusted.verifies(keyId, signedBytes(), signature);
  }

  /** The public key that it brings, if that is one. */
  public Optional<PublicKey> ownKey() {
    return TrustedKeys.ifOne(publicKey);
  }

  /** As JSON, in the shape that the topic and exported proofs carry. */
  public ObjectNode toJson() {
    return JSON.createObjectNode()
        .put("partition", partition)
        .put("number", number)
        .put("sequence", sequence)
        .put("offset", offset)
        .put("link", link.toString())
        .put("previous", previous.toString())
        .put("signedAt", signedAt.toString())
        .put("keyId", keyId)
        .put("publicKey", publicKey)
        .put("signature", Base64.getEncoder().encodeToString(signature));
  }

  /** The value of its record in the topic: JSON as UTF-8. */
  public byte[] write() {
    return toJson().toString().getBytes(StandardCharsets.UTF_8);
  }

  /**
   * Reads what {@link #write} wrote.
   *
   * @throws UnreadableChain if it is no checkpoint
   */
  public static Checkpoint read(byte[] value) {
    if (value == null) {
      throw new UnreadableChain("A checkpoint is JSON; this record has no value");
    }
    try {
      return of(JSON.readTree(value));
    } catch (IOException e) {
      throw new UnreadableChain(
          "A checkpoint is JSON; this begins with "
              + new String(value, 0, Math.min(40, value.length), StandardCharsets.UTF_8),
          e);
    }
  }

  /** The checkpoint that a record holds; empty for a record that is none. */
  public static Optional<Checkpoint> ifOne(byte[] value) {
    try {
      return Optional.of(read(value));
    } catch (UnreadableChain none) {
      return Optional.empty();
    }
  }

  /**
   * Reads checkpoints and lists of them, one after the other, as the interface gives them.
   *
   * @throws UnreadableChain if something else stands between them
   */
  public static List<Checkpoint> readAll(byte[] json) {
    try {
      List<Checkpoint> all = new ArrayList<>();
      try (MappingIterator<JsonNode> values = JSON.readerFor(JsonNode.class).readValues(json)) {
        while (values.hasNextValue()) {
          JsonNode value = values.nextValue();
          if (value.isArray()) {
            value.forEach(element -> all.add(of(element)));
          } else {
            all.add(of(value));
          }
        }
      }
      return all;
    } catch (IOException e) {
      throw new UnreadableChain("Checkpoints are JSON, one after the other or lists of them", e);
    }
  }

  /**
   * Reads what {@link #toJson} wrote.
   *
   * @throws UnreadableChain if it is no checkpoint
   */
  public static Checkpoint of(JsonNode json) {
    try {
      return new Checkpoint(
          json.required("partition").intValue(),
          json.required("number").longValue(),
          json.required("sequence").longValue(),
          json.required("offset").longValue(),
          Hash.parse(json.required("link").asText()),
          Hash.parse(json.required("previous").asText()),
          Instant.parse(json.required("signedAt").asText()),
          json.required("keyId").asText(),
          json.required("publicKey").asText(),
          Base64.getDecoder().decode(json.required("signature").asText()));
    } catch (IllegalArgumentException | DateTimeException e) {
      throw new UnreadableChain("Not a checkpoint: " + e.getMessage(), e);
    }
  }
}
