package org.kornspur.api.kafka;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.util.HexFormat;
import org.kornspur.api.storage.SecretFile;

/**
 * What instances of one cluster show each other. On one machine it is made at the first start;
 * where others reach this instance it must be set, for all the same.
 */
@ApplicationScoped
public class InternalSecret {

  /** The header that carries it. */
  public static final String HEADER = "Kornspur-Instance";

  private static final int BYTES = 32;
  private static final int SHORTEST = 32;

  private final String secret;

  @Inject
  InternalSecret(EngineSettings settings) {
    this.secret = secret(settings);
  }

  private static String secret(EngineSettings settings) {
    if (settings.internalSecret().isPresent()) {
      String set = settings.internalSecret().get();
      if (set.length() < SHORTEST) {
        throw new IllegalArgumentException(
            "kornspur.internal-secret has "
                + set.length()
                + " characters; expected at least "
                + SHORTEST
                + ". Give all instances the same random text, as from: openssl rand -hex 32");
      }
      return set;
    }
    if (settings.advertisedAddress().isPresent()) {
      throw new IllegalArgumentException(
          "kornspur.internal-secret is absent, and kornspur.advertised-address says that other"
              + " instances reach this one. Give all instances the same random text, as from:"
              + " openssl rand -hex 32");
    }
    return HexFormat.of()
        .formatHex(SecretFile.loadOrCreate(settings.dataFolder().resolve("internal.key"), BYTES));
  }

  /** To be sent to another instance. */
  public String value() {
    return secret;
  }

  public boolean matches(String given) {
    return given != null
        && MessageDigest.isEqual(
            secret.getBytes(StandardCharsets.UTF_8), given.getBytes(StandardCharsets.UTF_8));
  }
}
