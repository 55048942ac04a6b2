package org.kornspur.api.kafka;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Clock;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.CancellationException;
import org.apache.avro.specific.SpecificRecord;
import org.jboss.logging.Logger;
import org.kornspur.api.storage.RefusedTableFolder;
import org.kornspur.api.text.TableTexts;
import org.kornspur.contract.QuarantineEntry;
import org.kornspur.contract.SenderRole;
import org.kornspur.ingest.attestation.SignedSubmissions;
import org.kornspur.ingest.file.FolderLoader;
import org.kornspur.ingest.file.LoadProgress;
import org.kornspur.ingest.file.LoadReport;
import org.kornspur.ingest.intake.FactSink;
import org.kornspur.ingest.publish.FactPublisher;
import org.kornspur.ingest.seal.SigningKey;

/**
 * Loads the folder that the settings name, once the processors are there to take it. Who starts the
 * server owns it, so the server signs what it loads as brought by quality.
 */
final class StartLoad {
  private static final Logger LOG = Logger.getLogger(StartLoad.class);

  /** Facts from one look at the limit to the next. */
  private static final int BETWEEN_LOOKS = 1000;

  private static final SignedSubmissions.Sender SENDER =
      new SignedSubmissions.Sender("kornspur.load", SenderRole.QUALITY, Optional.empty());

  private StartLoad() {}

  /**
   * Loads a folder, as fast as what it holds is judged.
   *
   * @param refused where refused rows of tables are written back
   * @throws IOException if the folder cannot be walked
   * @throws CancellationException if the program is stopped meanwhile
   */
  static void run(
      Path folder,
      RefusedTableFolder refused,
      Map<String, Object> clientSettings,
      SigningKey key,
      IntakeLimit limit)
      throws IOException {
    try (FactPublisher publisher = FactPublisher.connect(clientSettings)) {
      LoadReport report =
          FolderLoader.load(
              folder,
              TableTexts.all(),
              refused,
              Clock.systemUTC(),
              signing(publisher, key, limit),
              LoadProgress.SILENT);
      LOG.infof("Loaded %s: %s", folder, report.summary());
      if (report.refused() > 0) {
        LOG.infof("What was refused, and why: GET /api/v1/quarantine");
        LOG.infof("Refused rows of tables, to be mended, are in %s", refused.folder());
      }
    }
  }

  private static FactSink signing(FactPublisher publisher, SigningKey key, IntakeLimit limit) {
    return new FactSink() {
      private int sent;

      @Override
      public void accept(SpecificRecord fact) {
        if (sent % BETWEEN_LOOKS == 0) {
          awaitRoom(limit);
        }
        sent++;
        publisher.accept(SignedSubmissions.sign(fact, SENDER, key));
      }

      @Override
      public void refuse(QuarantineEntry entry) {
        publisher.refuse(entry);
      }
    };
  }

  private static void awaitRoom(IntakeLimit limit) {
    try {
      limit.awaitRoom();
    } catch (InterruptedException stopping) {
      Thread.currentThread().interrupt();
      throw new CancellationException("The program is stopped while it loads");
    }
  }
}
