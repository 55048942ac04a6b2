package org.kornspur.processors.standards;

import java.nio.charset.StandardCharsets;
import java.util.List;
import org.kornspur.ingest.contract.Fingerprint;

/**
 * Which rules made a verdict. Two standings with the same fingerprint were judged by the same
 * rulebooks, gates and version of the judging; one with another must be judged again.
 *
 * @param hex the first 16 bytes of a SHA-256, as 32 hexadecimal digits
 */
public record RulesFingerprint(String hex) {
  private static final int DIGITS = 32;

  /**
   * The fingerprint of rules.
   *
   * @param books rulebooks in force; the text of every file counts
   * @param gates names of the gates, in their order
   * @param judgingVersion version of the program parts that judge
   */
  public static RulesFingerprint of(Rulebooks books, List<String> gates, int judgingVersion) {
    return hashOf(books.digest(), String.join(",", gates), Integer.toString(judgingVersion));
  }

  /** The fingerprint of these rules together with a setting of the site that changes verdicts. */
  public RulesFingerprint with(String setting) {
    return hashOf(hex, setting);
  }

  private static RulesFingerprint hashOf(String... parts) {
    byte[][] bytes = new byte[parts.length][];
    for (int at = 0; at < parts.length; at++) {
      bytes[at] = parts[at].getBytes(StandardCharsets.UTF_8);
    }
    return new RulesFingerprint(Fingerprint.of(bytes).substring(0, DIGITS));
  }

  @Override
  public String toString() {
    return hex;
  }
}
