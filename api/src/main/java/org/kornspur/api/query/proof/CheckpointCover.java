package org.kornspur.api.query.proof;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.kornspur.api.kafka.ProcessorsClient;
import org.kornspur.processors.stream.ChainPositions.Position;

/** Finds the checkpoints that cover facts. */
@ApplicationScoped
public class CheckpointCover {
  @Inject ProcessorsClient processors;

  /**
   * How far checkpoints cover these facts at this moment.
   *
   * @throws org.kornspur.api.kafka.NotReady if the log cannot be read just now
   */
  public LogCoverage cover(Collection<String> factIds) {
    Map<String, List<Position>> positions = new HashMap<>();
    factIds.forEach(factId -> positions.put(factId, processors.positions(factId)));
    try (LogReader log = new LogReader(processors)) {
      return LogCoverage.of(positions, log);
    }
  }
}
