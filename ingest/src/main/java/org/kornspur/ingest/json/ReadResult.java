package org.kornspur.ingest.json;

import java.util.List;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.ingest.intake.Problem;

/** What became of an input: a fact, or a refusal with its reasons. */
public sealed interface ReadResult {

  /** The input is this fact. */
  record Fact(SpecificRecord fact) implements ReadResult {}

  /**
   * The input was refused.
   *
   * @param problems everything that is wrong, never empty
   */
  record Refused(List<Problem> problems) implements ReadResult {

    public Refused {
      if (problems.isEmpty()) {
        throw new IllegalArgumentException("A refusal must say why");
      }
      problems = List.copyOf(problems);
    }
  }
}
