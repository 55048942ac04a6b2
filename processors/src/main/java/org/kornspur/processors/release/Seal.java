package org.kornspur.processors.release;

import java.nio.charset.StandardCharsets;
import java.util.HexFormat;
import org.kornspur.ingest.contract.Fingerprint;
import org.kornspur.processors.dossier.Dossier;

/**
 * The seal: SHA-256 over the {@linkplain CanonicalDossier canonical text} of a dossier and of what
 * the gates say of it, in UTF-8. Who signs it signs exactly what that text says; a change of a
 * single fact, limit or verdict makes another seal.
 *
 * @param hex 64 hexadecimal digits
 */
public record Seal(String hex) {

  public static Seal of(Dossier dossier, Assessment assessment) {
    return over(CanonicalDossier.text(dossier, assessment));
  }

  /** Whether a seal, of whichever version, is over this dossier and what the gates say of it. */
  static boolean isOver(String hex, Dossier dossier, Assessment assessment) {
    return of(dossier, assessment).hex().equals(hex)
        || over(CanonicalDossier.versionOne(dossier, assessment)).hex().equals(hex);
  }

  private static Seal over(String text) {
    byte[] bytes = text.getBytes(StandardCharsets.UTF_8);
    return new Seal(HexFormat.of().formatHex(Fingerprint.sha256().digest(bytes)));
  }

  @Override
  public String toString() {
    return hex;
  }
}
