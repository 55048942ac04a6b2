package org.kornspur.api.engine;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Clock;
import java.util.Map;
import org.jboss.logging.Logger;
import org.kornspur.ingest.file.FolderLoad;
import org.kornspur.ingest.file.LoadProgress;
import org.kornspur.ingest.file.LoadReport;
import org.kornspur.ingest.publish.FactPublisher;

/** Loads the folder that the settings name, once the processors are there to take it. */
final class StartLoad {
  private static final Logger LOG = Logger.getLogger(StartLoad.class);

  private StartLoad() {}

  static void run(Path folder, Map<String, Object> clientSettings) throws IOException {
    try (FactPublisher publisher = FactPublisher.connect(clientSettings)) {
      LoadReport report =
          FolderLoad.load(folder, Clock.systemUTC(), publisher, LoadProgress.SILENT);
      LOG.infof("Loaded %s: %s", folder, report.summary());
      if (report.refused() > 0) {
        LOG.infof("What was refused, and why: GET /api/v1/quarantine");
      }
    }
  }
}
