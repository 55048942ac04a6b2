package org.kornspur.ingest.seal;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.PublicKey;
import java.security.spec.InvalidKeySpecException;
import java.util.Collection;
import java.util.List;
import java.util.Optional;
import java.util.TreeMap;
import java.util.stream.Stream;

/**
 * Public Ed25519 keys whose signatures count. A key that no longer signs stays in, so that what it
 * once signed still verifies.
 *
 * <p>Immutable.
 */
public final class TrustedKeys {

  private static final String SUFFIX = ".pem";

  private final TreeMap<String, PublicKey> byId = new TreeMap<>();

  private TrustedKeys(Collection<PublicKey> keys) {
    keys.forEach(key -> byId.put(Ed25519.keyId(key), key));
  }

  public static TrustedKeys of(Collection<PublicKey> keys) {
    return new TrustedKeys(keys);
  }

  public static TrustedKeys of(PublicKey... keys) {
    return new TrustedKeys(List.of(keys));
  }

  /**
   * Every public key in a folder's {@code *.pem} files; files without a PUBLIC KEY block, such as
   * private keys, are passed over. A file may hold one key.
   *
   * @throws SealFailed if the folder cannot be read, or a PUBLIC KEY block holds no Ed25519 key
   */
  public static TrustedKeys in(Path folder) {
    try (Stream<Path> files = Files.list(folder)) {
      List<PublicKey> keys =
          files
              .filter(file -> file.getFileName().toString().endsWith(SUFFIX))
              .filter(file -> !file.getFileName().toString().startsWith("signing-key"))
              .sorted()
              .flatMap(file -> read(file).stream())
              .toList();
      return new TrustedKeys(keys);
    } catch (IOException e) {
      throw new SealFailed(
          "Folder %s of trusted public keys cannot be read: %s. Give a folder with *.pem files"
              .formatted(folder, e),
          e);
    }
  }

  private static Optional<PublicKey> read(Path file) {
    try {
      return parse(Files.readString(file));
    } catch (IOException | IllegalArgumentException e) {
      throw new SealFailed(
          ("%s cannot be read as a public key: %s. Replace it by an Ed25519 key in X.509 and "
                  + "PEM, or take it away")
              .formatted(file, e.getMessage()),
          e);
    }
  }

  /**
   * The key of a PEM text; empty if it has no PUBLIC KEY block.
   *
   * @throws IllegalArgumentException if the block holds no Ed25519 key
   */
  private static Optional<PublicKey> parse(String pem) {
    Optional<byte[]> der = Pem.read(Pem.PUBLIC_KEY, pem);
    if (der.isEmpty()) {
      return Optional.empty();
    }
    try {
      return Optional.of(Ed25519.publicKey(der.get()));
    } catch (InvalidKeySpecException e) {
      throw new IllegalArgumentException("the PUBLIC KEY block holds no Ed25519 key", e);
    }
  }

  /** The key of a PEM text; empty if it holds none that can be used here. */
  public static Optional<PublicKey> ifOne(String pem) {
    try {
      return parse(pem);
    } catch (IllegalArgumentException noKey) {
      return Optional.empty();
    }
  }

  /** First 16 bytes of SHA-256 over the X.509 encoded key, in hexadecimal. */
  public static String keyId(PublicKey key) {
    return Ed25519.keyId(key);
  }

  /** A public key as PEM text. */
  public static String pem(PublicKey key) {
    return Pem.write(Pem.PUBLIC_KEY, key.getEncoded());
  }

  /** Name of the file that holds a public key in a key folder. */
  public static String fileName(String keyId) {
    return keyId + ".pub" + SUFFIX;
  }

  /** These keys and others. */
  public TrustedKeys and(TrustedKeys others) {
    return new TrustedKeys(
        Stream.concat(byId.values().stream(), others.byId.values().stream()).toList());
  }

  public boolean contains(String keyId) {
    return byId.containsKey(keyId);
  }

  /** Whether the key of this id is trusted and signed this message. */
  public boolean verifies(String keyId, byte[] message, byte[] signature) {
    PublicKey key = byId.get(keyId);
    return key != null && Ed25519.verifies(key, message, signature);
  }

  /** All keys, in the order of their ids. */
  public List<PublicKey> publicKeys() {
    return List.copyOf(byId.values());
  }

  /** Ids of all keys, in order. */
  public List<String> keyIds() {
    return List.copyOf(byId.keySet());
  }
}
