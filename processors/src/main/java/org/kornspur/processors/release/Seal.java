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
    byte[] text = CanonicalDossier.text(dossier, assessment).getBytes(StandardCharsets.UTF_8);
    return new Seal(HexFormat.of().formatHex(Fingerprint.sha256().digest(text)));
  }

  @Override
  public String toString() {
    return hex;
  }
}
