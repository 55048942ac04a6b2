package org.kornspur.ingest.seal;

import java.security.GeneralSecurityException;
import java.security.KeyFactory;
import java.security.KeyPair;
import java.security.KeyPairGenerator;
import java.security.NoSuchAlgorithmException;
import java.security.PrivateKey;
import java.security.PublicKey;
import java.security.Signature;
import java.security.SignatureException;
import java.security.spec.InvalidKeySpecException;
import java.security.spec.PKCS8EncodedKeySpec;
import java.security.spec.X509EncodedKeySpec;
import java.util.Arrays;
import java.util.HexFormat;
import org.kornspur.ingest.contract.Fingerprint;

/** The signature scheme of RFC 8032, as the Java platform has it; key encodings of RFC 8410. */
final class Ed25519 {

  private static final String NAME = "Ed25519";
  private static final int KEY_ID_BYTES = 16;

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
    try {
      Signature signature = Signature.getInstance(NAME);
      signature.initSign(key);
      signature.update(message);
      return signature.sign();
    } catch (GeneralSecurityException unusable) {
      throw new SealFailed("The signing key cannot sign: " + unusable.getMessage(), unusable);
    }
  }

  /** Whether the signature is one of this key over this message; malformed signatures are not. */
  static boolean verifies(PublicKey key, byte[] message, byte[] signed) {
    try {
      Signature signature = Signature.getInstance(NAME);
      signature.initVerify(key);
      signature.update(message);
      return signature.verify(signed);
    } catch (SignatureException malformed) {
      return false;
    } catch (GeneralSecurityException unusable) {
      throw new SealFailed(
          "The public key " + keyId(key) + " cannot verify: " + unusable.getMessage(), unusable);
    }
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
