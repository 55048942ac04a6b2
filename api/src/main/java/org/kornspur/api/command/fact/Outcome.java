package org.kornspur.api.command.fact;

import java.util.List;
import java.util.Optional;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.api.problem.NotReadyDetail;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.intake.Problem;

/** What became of one fact. */
public sealed interface Outcome {

  /** It went in. */
  record Accepted(SpecificRecord fact) implements Outcome {}

  /** The same fact had come before. */
  record AlreadyKnown(SpecificRecord fact) implements Outcome {}

  /** It breaks the contract; the entry in the quarantine, where it could be kept. */
  record Refused(List<Problem> problems, Optional<String> quarantineId) implements Outcome {}

  /** Another fact has its id. */
  record Conflict(String factId, List<Problem> problems, Optional<String> quarantineId)
      implements Outcome {}

  /** Who sent it may not bring it. It is not kept. */
  record NotAllowed(String factId, List<Problem> problems) implements Outcome {}

  /** Nothing is wrong with it, but it could not be sent. */
  record Unsent(SpecificRecord fact, NotReadyDetail reason) implements Outcome {}

  /** The id of a fact. */
  static String factId(SpecificRecord fact) {
    return FactType.headerOf(fact).getFactId();
  }
}
