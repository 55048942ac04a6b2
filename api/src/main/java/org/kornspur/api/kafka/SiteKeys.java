package org.kornspur.api.kafka;

import static java.util.stream.Collectors.joining;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.jboss.logging.Logger;
import org.kornspur.api.problem.NotReadyDetail;
import org.kornspur.api.storage.CannotStart;
import org.kornspur.ingest.chain.Checkpoint;
import org.kornspur.ingest.seal.SigningKey;
import org.kornspur.ingest.seal.TrustedKeys;

/**
 * The key with which this instance signs, and the keys whose signatures count here: its own, those
 * that it had before, and those of the other instances that the site trusts.
 */
@ApplicationScoped
public class SiteKeys {
  private static final Logger LOG = Logger.getLogger(SiteKeys.class);

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
   * Reads the key of this instance, or makes one where the folder has none. A key that is lost is
   * not replaced by the way: nobody would learn that what it signed counts no more.
   *
   * @param isSigned whether the log has links or checkpoints
   * @param newest the newest checkpoints of the log
   * @throws CannotStart if the log is signed, and neither a key is there nor one that signed it
   * @throws org.kornspur.ingest.seal.SealFailed if a key cannot be read or made
   */
  synchronized void open(boolean isSigned, List<Checkpoint> newest) {
    if (isSigned && !SigningKey.isIn(own) && !knows(newest)) {
      String lost =
          "the signing key is missing: "
              + own.toAbsolutePath()
              + " holds no "
              + SigningKey.PRIVATE_FILE
              + ", and the log is signed by "
              + signers(newest)
              + ", which no trusted key is";
      if (!settings.newSigningKey()) {
        throw new CannotStart(
            lost
                + ". Put the folder back from a backup, and start again. If the key is lost for"
                + " good, start with kornspur.new-signing-key=true to have another one made: what"
                + " the lost key signed, checkpoints and releases too, then counts only while its"
                + " public key (*.pub.pem) is in the folder",
            null);
      }
      LOG.warnf("A new signing key is made as kornspur.new-signing-key asks: %s.", lost);
    }
    signing = SigningKey.loadOrCreate(own);
  }

  private boolean knows(List<Checkpoint> newest) {
    List<TrustedKeys> there =
        Stream.concat(Stream.of(own), settings.trustedKeys().stream())
            .filter(Files::isDirectory)
            .map(TrustedKeys::in)
            .toList();
    return newest.stream().anyMatch(made -> there.stream().anyMatch(made::isSignedBy));
  }

  private static String signers(List<Checkpoint> newest) {
    return newest.isEmpty()
        ? "a key whose checkpoints are missing too"
        : newest.stream().map(Checkpoint::keyId).distinct().collect(joining(", ", "key ", ""));
  }

  /**
   * The key of this instance.
   *
   * @throws NotReady before the start has come so far
   */
  public synchronized SigningKey signing() {
    if (signing == null) {
      throw new NotReady(new NotReadyDetail.KeysUnread(), 3);
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
