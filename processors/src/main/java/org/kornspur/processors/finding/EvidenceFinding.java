package org.kornspur.processors.finding;

import java.util.List;
import java.util.Optional;
import org.kornspur.ingest.statement.Value.Fact;

/** What is to be said of the evidence itself. */
public sealed interface EvidenceFinding extends Finding {
  record Nothing() implements EvidenceFinding {}

  record ImpossibleCount(Fact fact, Thing what, int found, int of) implements EvidenceFinding {}

  record NotJudged(String kind, Optional<String> message) implements EvidenceFinding {}

  record Unreadable(List<String> keys, Optional<Integer> further) implements EvidenceFinding {}

  record JudgingFailed(String kind) implements EvidenceFinding {}

  /** What an earlier release recorded as an English sentence. */
  record Recorded(String sentence) implements EvidenceFinding {}
}
