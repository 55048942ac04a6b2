package org.kornspur.api.export.audit;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.kornspur.api.kafka.ProcessorsClient;
import org.kornspur.api.kafka.SiteKeys;
import org.kornspur.api.query.proof.LogReader;
import org.kornspur.ingest.chain.ChainLink;
import org.kornspur.ingest.chain.Checkpoint;
import org.kornspur.ingest.chain.PartitionReport;
import org.kornspur.ingest.chain.Verification;
import org.kornspur.ingest.seal.TrustedKeys;
import org.kornspur.ingest.verify.ClusterLog;

/** Verifies the whole log, where it is short enough to be held in memory beside all else. */
@ApplicationScoped
public class LogChecks {
  /**
   * Records of a log that is verified here. One takes some 600 bytes, its link among them, so these
   * take about what a heavy document may.
   */
  private static final long MOST_RECORDS = 300_000;

  @Inject ProcessorsClient processors;
  @Inject SiteKeys keys;

  LogCheck check() {
    List<Checkpoint> newest = new ArrayList<>();
    long chained = 0;
    try (LogReader log = new LogReader(processors)) {
      for (int partition : log.partitions()) {
        log.newestCheckpoint(partition).ifPresent(newest::add);
        chained += log.newestLink(partition).map(ChainLink::sequence).orElse(0L);
      }
    }
    TrustedKeys trusted = keys.trusted();
    List<PartitionReport> reports =
        chained > MOST_RECORDS
            ? List.of()
            : Verification.of(ClusterLog.read(processors.consumerSettings()), trusted, newest);
    return new LogCheck(Instant.now(), reports, List.copyOf(newest), trusted.keyIds(), chained);
  }
}
