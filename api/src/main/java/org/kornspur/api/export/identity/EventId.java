package org.kornspur.api.export.identity;

import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.Optional;
import java.util.UUID;

/**
 * Ids of events: a name-based UUID of the fact's id, so that the same fact has the same event id
 * wherever it is exported.
 *
 * <p>Source: RFC 9562, section 5.5 (version 5); EPCIS 2.0, section 7.4.1, allows any URI and names
 * UUIDs first.
 */
public final class EventId {

  private static final String URN = "urn:uuid:";

  private static final UUID NAMESPACE_URL = UUID.fromString("6ba7b811-9dad-11d1-80b4-00c04fd430c8");

  private static final UUID FACTS = nameBased(NAMESPACE_URL, Vocabulary.term("fact"));

  private EventId() {}

  /** The event id of a fact, as {@code urn:uuid:…}. */
  public static String ofFact(String factId) {
    return URN + uuidOfFact(factId);
  }

  /** The same without what URNs begin with. */
  public static UUID uuidOfFact(String factId) {
    return nameBased(FACTS, factId);
  }

  /** The UUID in an event id; empty for an id of another form. */
  public static Optional<UUID> uuidIn(String eventId) {
    if (!eventId.regionMatches(true, 0, URN, 0, URN.length())) {
      return Optional.empty();
    }
    String text = eventId.substring(URN.length());
    try {
      UUID uuid = UUID.fromString(text);
      return uuid.toString().equalsIgnoreCase(text) ? Optional.of(uuid) : Optional.empty();
    } catch (IllegalArgumentException noUuid) {
      return Optional.empty();
    }
  }

  /** A name-based UUID of version 5. */
  static UUID nameBased(UUID namespace, String name) {
    MessageDigest digest = sha1();
    digest.update(
        ByteBuffer.allocate(16)
            .putLong(namespace.getMostSignificantBits())
            .putLong(namespace.getLeastSignificantBits())
            .array());
    ByteBuffer hash = ByteBuffer.wrap(digest.digest(name.getBytes(StandardCharsets.UTF_8)));
    long high = (hash.getLong() & 0xFFFF_FFFF_FFFF_0FFFL) | 0x5000L;
    long low = (hash.getLong() & 0x3FFF_FFFF_FFFF_FFFFL) | 0x8000_0000_0000_0000L;
    return new UUID(high, low);
  }

  /** SHA-1 names things here and protects nothing; version 5 prescribes it. */
  private static MessageDigest sha1() {
    try {
      return MessageDigest.getInstance("SHA-1");
    } catch (NoSuchAlgorithmException missing) {
      throw new IllegalStateException("Every Java platform has SHA-1", missing);
    }
  }
}
