package org.kornspur.api.engine;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.nio.file.Path;
import org.kornspur.ingest.seal.SigningKey;
import org.kornspur.ingest.seal.TrustedKeys;

/**
 * The key with which this instance signs, and the keys whose signatures count here: its own, those
 * that it had before, and those of the other instances that the site trusts.
 */
@ApplicationScoped
public class SiteKeys {
  private final Path own;
  private final EngineSettings settings;
  private SigningKey signing;
  private TrustedKeys trusted;

  @Inject
  public SiteKeys(EngineSettings settings) {
    this.settings = settings;
    this.own = settings.signingKey().orElseGet(() -> settings.dataFolder().resolve("keys"));
  }

  /**
   * The key of this instance; made at the first call of the first run.
   *
   * @throws org.kornspur.ingest.seal.SealFailed if it cannot be read or made
   */
  public synchronized SigningKey signing() {
    if (signing == null) {
      signing = SigningKey.loadOrCreate(own);
    }
    return signing;
  }

  /**
   * All keys whose signatures count.
   *
   * @throws org.kornspur.ingest.seal.SealFailed if a folder or key cannot be read
   */
  public synchronized TrustedKeys trusted() {
    if (trusted == null) {
      signing();
      TrustedKeys ownKeys = TrustedKeys.in(own);
      trusted = settings.trustedKeys().map(TrustedKeys::in).map(ownKeys::and).orElse(ownKeys);
    }
    return trusted;
  }
}
