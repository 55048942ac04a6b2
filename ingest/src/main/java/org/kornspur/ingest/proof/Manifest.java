package org.kornspur.ingest.proof;

import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.kornspur.ingest.seal.Hash;
import org.kornspur.ingest.seal.SigningKey;
import org.kornspur.ingest.seal.TrustedKeys;

/**
 * The signed list of what a dossier held when it was exported: a hash chain of its own over the
 * facts in their order, whose last link is signed.
 *
 * <pre>
 *  link(0) = SHA-256("kornspur/manifest/v1" 0 subject exportedAt)
 *  link(n) = SHA-256("kornspur/manifest-entry/v1" 0 link(n-1) n factId content schema place)
 *  place   = partition sequence offset
 * </pre>
 *
 * @param signature Ed25519 over the last link
 */
public record Manifest(
    String subject,
    Instant exportedAt,
    List<Entry> entries,
    String keyId,
    String publicKey,
    byte[] signature) {

  public Manifest {
    entries = List.copyOf(entries);
  }

  /**
   * One fact.
   *
   * @param content content hash of its record
   * @param schema hash of its writer's schema
   * @param at where it is in the log
   */
  public record Entry(String factId, Hash content, Hash schema, At at, Hash link) {}

  /**
   * A place in the log.
   *
   * @param partition -1 where the fact is not chained
   * @param sequence 0 where it is not chained
   * @param offset -1 where it is not chained
   */
  public record At(int partition, long sequence, long offset) {

    static At of(ProvedFact fact) {
      return fact.place()
          .map(
              place ->
                  new At(place.record().partition(), place.sequence(), place.record().offset()))
          .orElse(new At(-1, 0, -1));
    }
  }

  static Manifest sign(
      String subject,
      Instant at,
      List<ProvedFact> facts,
      Map<Integer, String> schemas,
      SigningKey key) {
    Instant exportedAt = at.truncatedTo(ChronoUnit.MILLIS);
    List<Entry> entries = new ArrayList<>();
    Hash link = genesis(subject, exportedAt);
    for (ProvedFact fact : facts) {
      Entry entry = entryOf(fact, schemas, link, entries.size() + 1);
      entries.add(entry);
      link = entry.link();
    }
    return new Manifest(
        subject,
        exportedAt,
        entries,
        key.keyId(),
        TrustedKeys.pem(key.publicKey()),
        key.sign(link.bytes()));
  }

  private static Entry entryOf(
      ProvedFact fact, Map<Integer, String> schemas, Hash before, int number) {
    Hash content = fact.content();
    Hash schema = hashOf(schemas.getOrDefault(fact.schemaId(), ""));
    At at = At.of(fact);
    return new Entry(
        fact.factId(),
        content,
        schema,
        at,
        link(before, number, fact.factId(), content, schema, at));
  }

  static Hash hashOf(String schema) {
    return Hash.in("kornspur/schema/v1").add(schema).done();
  }

  static Hash genesis(String subject, Instant exportedAt) {
    return Hash.in("kornspur/manifest/v1").add(subject).add(exportedAt.toEpochMilli()).done();
  }

  private static Hash link(
      Hash before, int number, String factId, Hash content, Hash schema, At at) {
    return Hash.in("kornspur/manifest-entry/v1")
        .add(before)
        .add(number)
        .add(factId)
        .add(content)
        .add(schema)
        .add(at.partition())
        .add(at.sequence())
        .add(at.offset())
        .done();
  }

  /** Whether an entry follows from the link before. */
  static boolean follows(Entry entry, Hash before, int number) {
    return entry
        .link()
        .equals(link(before, number, entry.factId(), entry.content(), entry.schema(), entry.at()));
  }

  /** The last link, which is what is signed. */
  Hash head() {
    return entries.isEmpty()
        ? genesis(subject, exportedAt)
        : entries.get(entries.size() - 1).link();
  }
}
