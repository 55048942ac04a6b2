package org.kornspur.ingest.seal;

import java.nio.charset.StandardCharsets;
import java.util.Base64;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** The textual encoding of keys, RFC 7468: Base64 between a BEGIN and an END line. */
final class Pem {

  static final String PRIVATE_KEY = "PRIVATE KEY";
  static final String PUBLIC_KEY = "PUBLIC KEY";

  private static final Base64.Encoder LINES =
      Base64.getMimeEncoder(64, "\n".getBytes(StandardCharsets.US_ASCII));

  private Pem() {}

  static String write(String label, byte[] der) {
    return "-----BEGIN %s-----\n%s\n-----END %s-----\n"
        .formatted(label, LINES.encodeToString(der), label);
  }

  /**
   * The first block with this label.
   *
   * @throws IllegalArgumentException if what stands between the lines is not Base64
   */
  static Optional<byte[]> read(String label, String text) {
    Matcher block =
        Pattern.compile(
                "-----BEGIN " + label + "-----([A-Za-z0-9+/=\\s]*)-----END " + label + "-----")
            .matcher(text);
    return block.find()
        ? Optional.of(Base64.getMimeDecoder().decode(block.group(1)))
        : Optional.empty();
  }
}
