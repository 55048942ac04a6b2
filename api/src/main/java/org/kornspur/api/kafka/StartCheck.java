package org.kornspur.api.kafka;

import static java.util.stream.Collectors.joining;

import java.util.List;
import java.util.Set;
import org.jboss.logging.Logger;
import org.kornspur.api.storage.CannotStart;
import org.kornspur.ingest.publish.FactPublisher;
import org.kornspur.ingest.verify.ClusterLog;
import org.kornspur.ingest.verify.LogEnd;

/**
 * Refuses to take up work on facts of which some are missing, or without the key that signed them.
 * Looks at offsets alone: what is missing in between, {@code verify} names.
 */
final class StartCheck {
  private static final Logger LOG = Logger.getLogger(StartCheck.class);

  private StartCheck() {}

  /**
   * Checks before a topic is made or a record is taken, and reads or makes the signing key.
   *
   * @throws CannotStart if facts or the key are missing; the message says which and what to do
   */
  static void run(BrokerAndRegistry brokerAndRegistry, EngineSettings settings, SiteKeys keys)
      throws InterruptedException {
    List<LogEnd> ends =
        ClusterLog.ends(brokerAndRegistry.clientSettings(), settings.applicationId());
    requireAllFacts(ends, settings.acceptLoss().orElse(Set.of()));
    keys.open(
        ends.stream().anyMatch(end -> end.link().isPresent() || end.checkpoint().isPresent()),
        ends.stream().flatMap(end -> end.checkpoint().stream()).toList());
  }

  private static void requireAllFacts(List<LogEnd> ends, Set<String> accepted) {
    List<LogEnd> losses = ends.stream().filter(end -> end.missing() > 0).toList();
    losses.stream()
        .filter(loss -> accepted.contains(name(loss)))
        .forEach(loss -> LOG.errorf("Goes on as kornspur.accept-loss asks: %s.", sentence(loss)));
    List<LogEnd> refused = losses.stream().filter(loss -> !accepted.contains(name(loss))).toList();
    if (!refused.isEmpty()) {
      throw new CannotStart(
          "facts are missing: "
              + refused.stream().map(StartCheck::sentence).collect(joining("; "))
              + ". Put the data folder back from a backup, and start again. What is missing, 'java"
              + " -jar ingest.jar verify' names. To go on without these facts for good, start with"
              + " kornspur.accept-loss="
              + refused.stream().map(StartCheck::name).collect(joining(",")),
          null);
    }
  }

  private static String name(LogEnd loss) {
    return loss.partition() + ":" + loss.expectedEnd();
  }

  private static String sentence(LogEnd loss) {
    return "partition %d of %s begins at offset %d and ends at %d, where signatures, links or"
            .formatted(loss.partition(), FactPublisher.FACTS_TOPIC, loss.begin(), loss.end())
        + " processors know of records from 0 to %d: %d missing"
            .formatted(loss.expectedEnd(), loss.missing());
  }
}
