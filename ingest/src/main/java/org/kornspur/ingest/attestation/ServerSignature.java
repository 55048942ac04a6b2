package org.kornspur.ingest.attestation;

import java.nio.charset.StandardCharsets;
import java.util.HexFormat;
import org.kornspur.ingest.seal.SigningKey;
import org.kornspur.ingest.seal.TrustedKeys;

/** A signature of the server, in hexadecimal as records keep it, over lines of ASCII. */
final class ServerSignature {

  private ServerSignature() {}

  /**
   * Signs lines, separated by line feeds.
   *
   * @param purpose the first line; no signature for one purpose passes for one of another
   */
  static String sign(SigningKey key, String purpose, String... lines) {
    return HexFormat.of().formatHex(key.sign(message(purpose, lines)));
  }

  /** Whether the key of this id is trusted and signed these lines for this purpose. */
  static boolean verifies(
      TrustedKeys keys, String keyId, String signature, String purpose, String... lines) {
    try {
      return keys.verifies(keyId, message(purpose, lines), HexFormat.of().parseHex(signature));
    } catch (IllegalArgumentException notHexadecimal) {
      return false;
    }
  }

  private static byte[] message(String purpose, String... lines) {
    return (purpose + "\n" + String.join("\n", lines)).getBytes(StandardCharsets.US_ASCII);
  }
}
