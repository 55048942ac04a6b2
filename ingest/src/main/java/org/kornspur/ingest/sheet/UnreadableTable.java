package org.kornspur.ingest.sheet;

import org.kornspur.ingest.intake.Problem;
import org.kornspur.ingest.problem.Given;
import org.kornspur.ingest.problem.IntakeReason;

/** A table is refused as a whole. */
public final class UnreadableTable extends Exception {
  private final transient Problem problem;

  public UnreadableTable(Given given, IntakeReason why) {
    super(given + ": " + why);
    this.problem = Problem.of("", given, why);
  }

  public Problem problem() {
    return problem;
  }
}
