package org.kornspur.api.query.recall;

import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.statement.Statement;
import org.kornspur.ingest.statement.Value.Fact;
import org.kornspur.processors.recall.LooseEnd;

/** Why a recall drill is not complete, and where it cannot be followed on. */
public sealed interface RecallStatement extends Statement {

  /** After so many crops and lots. */
  record StoppedBack(int steps) implements RecallStatement {}

  /** After so many crops, lots and customers. */
  record StoppedForward(int steps) implements RecallStatement {}

  record EndsBeyondSight() implements RecallStatement {}

  record Unresolved(int links) implements RecallStatement {}

  record NotAllProcessed() implements RecallStatement {}

  record NoOrigin(Subject subject) implements RecallStatement {}

  record NotDeclared(Subject subject) implements RecallStatement {}

  record NoSowing(Subject subject) implements RecallStatement {}

  record NoLabels(Fact dispatch, Subject subject) implements RecallStatement {}

  record NoHarvest(Subject subject) implements RecallStatement {}

  static RecallStatement of(LooseEnd end) {
    return switch (end.kind()) {
      case NO_ORIGIN -> new NoOrigin(end.subject());
      case NOT_DECLARED -> new NotDeclared(end.subject());
      case NO_SOWING -> new NoSowing(end.subject());
      case NO_LABELS -> new NoLabels(new Fact(end.factId()), end.subject());
      case NO_HARVEST -> new NoHarvest(end.subject());
    };
  }
}
