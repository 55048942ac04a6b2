package org.kornspur.ingest.seal;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.FileAttribute;
import java.nio.file.attribute.PosixFilePermission;
import java.nio.file.attribute.PosixFilePermissions;
import java.security.KeyPair;
import java.security.PrivateKey;
import java.security.PublicKey;
import java.security.spec.InvalidKeySpecException;
import java.util.EnumSet;
import java.util.Set;

/**
 * The Ed25519 key with which an instance signs.
 *
 * <p>A key folder holds the private key in {@value #PRIVATE_FILE} (PKCS#8, PEM, mode 0600) and each
 * public key that belongs or once belonged to it in {@code <keyId>.pub.pem} (X.509
 * SubjectPublicKeyInfo, PEM). Whoever verifies is given the public files alone.
 *
 * <p>Safe for several threads.
 */
public final class SigningKey {

  /** Name of the private key's file in a key folder. */
  public static final String PRIVATE_FILE = "signing-key.pem";

  private static final String LOCK_FILE = "signing-key.lock";

  private static final Set<PosixFilePermission> OWNER_ONLY =
      PosixFilePermissions.fromString("rw-------");
  private static final Set<PosixFilePermission> TOO_OPEN =
      EnumSet.of(
          PosixFilePermission.GROUP_WRITE,
          PosixFilePermission.OTHERS_READ,
          PosixFilePermission.OTHERS_WRITE);
  private static final byte[] PROBE = "kornspur key probe".getBytes(StandardCharsets.US_ASCII);

  private final PrivateKey privateKey;
  private final PublicKey publicKey;
  private final String keyId;

  private SigningKey(PrivateKey privateKey, PublicKey publicKey) {
    this.privateKey = privateKey;
    this.publicKey = publicKey;
    this.keyId = Ed25519.keyId(publicKey);
  }

  /** A new key that is kept nowhere. */
  public static SigningKey random() {
    KeyPair pair = Ed25519.newPair();
    return new SigningKey(pair.getPrivate(), pair.getPublic());
  }

  /** Whether a private key is in a folder. */
  public static boolean isIn(Path folder) {
    return Files.exists(folder.resolve(PRIVATE_FILE));
  }

  /**
   * The key of a folder; made, with the folder, where there is none yet.
   *
   * @throws SealFailed if the folder cannot be used, the private key is no Ed25519 key, others than
   *     its owner may read it, or its public key is not beside it
   */
  public static SigningKey loadOrCreate(Path folder) {
    Path file = folder.resolve(PRIVATE_FILE);
    try {
      if (!Files.exists(file)) {
        createAlone(folder, file);
      }
      return load(file);
    } catch (IOException e) {
      throw unusable(folder, e);
    }
  }

  /** Instances that share a folder and start at once must end with one key. */
  private static synchronized void createAlone(Path folder, Path file) throws IOException {
    Files.createDirectories(folder);
    try (FileChannel lock =
            FileChannel.open(
                folder.resolve(LOCK_FILE), StandardOpenOption.CREATE, StandardOpenOption.WRITE);
        FileLock held = lock.lock()) {
      if (held.isValid() && !Files.exists(file)) {
        store(random(), folder);
      }
    }
  }

  private static SigningKey load(Path file) throws IOException {
    requirePrivate(file);
    PrivateKey privateKey = readPrivate(file);
    byte[] signed = Ed25519.sign(privateKey, PROBE);
    for (PublicKey candidate : TrustedKeys.in(file.toAbsolutePath().getParent()).publicKeys()) {
      if (Ed25519.verifies(candidate, PROBE, signed)) {
        return new SigningKey(privateKey, candidate);
      }
    }
    throw new SealFailed(
        "No public key (*.pub.pem) beside "
            + file
            + " belongs to it. Put it back from a copy, or move the private key away to have a new"
            + " pair made",
        null);
  }

  private static PrivateKey readPrivate(Path file) throws IOException {
    try {
      byte[] der =
          Pem.read(Pem.PRIVATE_KEY, Files.readString(file))
              .orElseThrow(() -> new IllegalArgumentException("it has no PRIVATE KEY block"));
      return Ed25519.privateKey(der);
    } catch (InvalidKeySpecException | IllegalArgumentException e) {
      throw new SealFailed(
          ("%s is not an Ed25519 private key in PKCS#8 and PEM: %s. Put it back from a copy, or "
                  + "move it away to have a new pair made")
              .formatted(file, e.getMessage()),
          e);
    }
  }

  private static void requirePrivate(Path file) throws IOException {
    if (isPosix(file)) {
      Set<PosixFilePermission> permissions = Files.getPosixFilePermissions(file);
      if (permissions.stream().anyMatch(TOO_OPEN::contains)) {
        throw new SealFailed(
            ("%s has mode %s; others than its owner may read or change the signing key. Run: "
                    + "chmod 600 %s")
                .formatted(file, PosixFilePermissions.toString(permissions), file),
            null);
      }
    }
  }

  /** The public key goes first: a private key is never there without it. */
  private static void store(SigningKey key, Path folder) throws IOException {
    Files.writeString(
        folder.resolve(TrustedKeys.fileName(key.keyId())), TrustedKeys.pem(key.publicKey()));
    FileAttribute<?>[] mode =
        isPosix(folder)
            ? new FileAttribute<?>[] {PosixFilePermissions.asFileAttribute(OWNER_ONLY)}
            : new FileAttribute<?>[0];
    Path draft = Files.createTempFile(folder, "signing-key", ".new", mode);
    Files.writeString(
        draft,
        Pem.write(Pem.PRIVATE_KEY, key.privateKey.getEncoded()),
        StandardOpenOption.WRITE,
        StandardOpenOption.SYNC);
    Files.move(draft, folder.resolve(PRIVATE_FILE), StandardCopyOption.ATOMIC_MOVE);
  }

  private static boolean isPosix(Path path) {
    return path.getFileSystem().supportedFileAttributeViews().contains("posix");
  }

  private static SealFailed unusable(Path folder, IOException cause) {
    return new SealFailed(
        "Key folder %s cannot be used: %s. Give a folder that this user may read and write"
            .formatted(folder, cause),
        cause);
  }

  /** First 16 bytes of SHA-256 over the X.509 encoded public key, in hexadecimal. */
  public String keyId() {
    return keyId;
  }

  public PublicKey publicKey() {
    return publicKey;
  }

  /** Ed25519 signature of 64 bytes over the message as it is (RFC 8032, no pre-hash). */
  public byte[] sign(byte[] message) {
    return Ed25519.sign(privateKey, message);
  }

  @Override
  public String toString() {
    return "SigningKey " + keyId;
  }
}
