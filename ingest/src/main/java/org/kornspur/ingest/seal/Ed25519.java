package org.kornspur.ingest.seal;

import java.security.KeyException;
import java.security.KeyFactory;
import java.security.KeyPair;
import java.security.KeyPairGenerator;
import java.security.NoSuchAlgorithmException;
import java.security.PrivateKey;
import java.security.PublicKey;
import java.security.interfaces.EdECPrivateKey;
import java.security.spec.InvalidKeySpecException;
import java.security.spec.PKCS8EncodedKeySpec;
import java.security.spec.X509EncodedKeySpec;
import java.util.Arrays;
import java.util.HexFormat;
import org.kornspur.ingest.contract.Fingerprint;

/**
 * The signature scheme of RFC 8032, key encodings of RFC 8410. Keys are those of the Java platform;
 * Bouncy Castle signs and verifies, because the platform takes some ten times as long for it, and
 * each fact is signed once and verified once.
 */
final class Ed25519 {

  private static final String NAME = "Ed25519";
  private static final int KEY_ID_BYTES = 16;

  /** The encoding of RFC 8410 ends with the raw public key. */
  private static final int RAW_KEY_BYTES = 32;

  private Ed25519() {}

  static KeyPair newPair() {
    try {
      return KeyPairGenerator.getInstance(NAME).generateKeyPair();
    } catch (NoSuchAlgorithmException missing) {
      throw missing(missing);
    }
  }

  static PrivateKey privateKey(byte[] pkcs8) throws InvalidKeySpecException {
    return factory().generatePrivate(new PKCS8EncodedKeySpec(pkcs8));
  }

  static PublicKey publicKey(byte[] x509) throws InvalidKeySpecException {
    return factory().generatePublic(new X509EncodedKeySpec(x509));
  }

  static String keyId(PublicKey key) {
    byte[] hash = Fingerprint.sha256().digest(key.getEncoded());
    return HexFormat.of().formatHex(Arrays.copyOf(hash, KEY_ID_BYTES));
  }

  static byte[] sign(PrivateKey key, byte[] message) {
    byte[] signature = new byte[org.bouncycastle.math.ec.rfc8032.Ed25519.SIGNATURE_SIZE];
    org.bouncycastle.math.ec.rfc8032.Ed25519.sign(
        raw(key), 0, message, 0, message.length, signature, 0);
    return signature;
  }

  /** Whether the signature is one of this key over this message; malformed signatures are not. */
  static boolean verifies(PublicKey key, byte[] message, byte[] signed) {
    return signed.length == org.bouncycastle.math.ec.rfc8032.Ed25519.SIGNATURE_SIZE
        && org.bouncycastle.math.ec.rfc8032.Ed25519.verify(
            signed, 0, raw(key), 0, message, 0, message.length);
  }

  private static byte[] raw(PrivateKey key) {
    return ((EdECPrivateKey) key)
        .getBytes()
        .orElseThrow(
            () -> new SealFailed("The signing key does not give its bytes", new KeyException()));
  }

  private static byte[] raw(PublicKey key) {
    byte[] encoded = key.getEncoded();
    return Arrays.copyOfRange(encoded, encoded.length - RAW_KEY_BYTES, encoded.length);
  }

  private static KeyFactory factory() {
    try {
      return KeyFactory.getInstance(NAME);
    } catch (NoSuchAlgorithmException missing) {
      throw missing(missing);
    }
  }

  private static SealFailed missing(NoSuchAlgorithmException missing) {
    return new SealFailed(
        "This Java platform has no Ed25519; run Kornspur on Java 17 with the module"
            + " jdk.crypto.ec",
        missing);
  }
}
