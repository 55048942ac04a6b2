package org.kornspur.api.command.fact;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.List;
import java.util.Optional;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.api.kafka.Engine;
import org.kornspur.ingest.contract.Fingerprint;
import org.kornspur.ingest.intake.Problem;
import org.kornspur.ingest.problem.RecordProblem;
import org.kornspur.processors.stream.RegisterEntry;

/** Sends facts to the facts topic, each id once. */
@ApplicationScoped
class FactSender {
  private static final int REMEMBERED = 100_000;

  @Inject Engine engine;
  private final RecentFacts recent = new RecentFacts(REMEMBERED);

  /** Whether the id of a fact is taken by a fact with other content. */
  boolean knowsOtherContent(SpecificRecord fact) {
    String factId = Outcome.factId(fact);
    return engine
        .registered(factId)
        .flatMap(RegisterEntry::fingerprint)
        .or(() -> recent.fingerprint(factId))
        .filter(known -> !known.equals(Fingerprint.of(fact)))
        .isPresent();
  }

  /**
   * Sends a signed fact that has been checked, unless its id is known. A known fact goes in again
   * where it is brought in a role that may do more than any before: so somebody with the right to
   * it confirms what came by a file. Nothing goes to the quarantine.
   *
   * @return accepted, already known, or a conflict
   */
  Outcome send(SpecificRecord fact) {
    String factId = Outcome.factId(fact);
    String fingerprint = Fingerprint.of(fact);
    Optional<RegisterEntry> registered =
        engine.registered(factId).filter(known -> known.fingerprint().isPresent());
    if (registered.isPresent()) {
      boolean same = fingerprint.equals(registered.get().fingerprint().get());
      if (same && registered.get().lacksRoleOf(fact)) {
        engine.publish(fact);
        return new Outcome.Accepted(fact);
      }
      return known(fact, same);
    }
    Optional<String> taken = recent.take(factId, fingerprint);
    if (taken.isPresent()) {
      return known(fact, fingerprint.equals(taken.get()));
    }
    try {
      engine.publish(fact);
    } catch (RuntimeException notSent) {
      recent.release(factId);
      throw notSent;
    }
    return new Outcome.Accepted(fact);
  }

  private static Outcome known(SpecificRecord fact, boolean same) {
    return same ? new Outcome.AlreadyKnown(fact) : conflict(Outcome.factId(fact));
  }

  static Outcome conflict(String factId) {
    Problem problem = Problem.of("header.factId", factId, new RecordProblem.OtherContent());
    return new Outcome.Conflict(factId, List.of(problem), Optional.empty());
  }
}
