package org.kornspur.api.recall;

import org.kornspur.ingest.statement.Statement;

/** Why a recall drill is not complete. */
public sealed interface RecallStatement extends Statement {

  /** After so many crops and lots. */
  record StoppedBack(int steps) implements RecallStatement {}

  /** After so many crops, lots and customers. */
  record StoppedForward(int steps) implements RecallStatement {}

  record EndsBeyondSight() implements RecallStatement {}

  record Unresolved(int links) implements RecallStatement {}

  record NotAllProcessed() implements RecallStatement {}
}
