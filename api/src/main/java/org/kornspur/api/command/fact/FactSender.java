package org.kornspur.api.command.fact;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.Optional;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionException;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.api.kafka.NotReady;
import org.kornspur.api.kafka.ProcessorsClient;
import org.kornspur.api.security.limit.RecentClaims;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Fingerprint;
import org.kornspur.processors.stream.RegisterEntry;

/** Sends facts to the facts topic, each id once. */
@ApplicationScoped
class FactSender {
  private static final int REMEMBERED = 100_000;

  @Inject ProcessorsClient processors;

  /** Fingerprints by fact id. */
  private final RecentClaims<String> recent = new RecentClaims<>(REMEMBERED);

  /** Whether the id of a fact is taken by a fact with other content. */
  boolean knowsOtherContent(SpecificRecord fact) {
    String factId = FactType.idOf(fact);
    return processors
        .registered(factId)
        .flatMap(RegisterEntry::fingerprint)
        .or(() -> recent.of(factId))
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
  SubmissionOutcome send(SpecificRecord fact) {
    try {
      return begin(fact).join();
    } catch (CompletionException notSent) {
      throw notSent.getCause() instanceof NotReady notReady ? notReady : notSent;
    }
  }

  /** The same without waiting for the broker; fails with {@link NotReady} where that has it not. */
  CompletableFuture<SubmissionOutcome> begin(SpecificRecord fact) {
    String factId = FactType.idOf(fact);
    String fingerprint = Fingerprint.of(fact);
    Optional<RegisterEntry> registered =
        processors.registered(factId).filter(known -> known.fingerprint().isPresent());
    if (registered.isPresent()) {
      boolean same = fingerprint.equals(registered.get().fingerprint().get());
      return same && registered.get().lacksRoleOf(fact)
          ? published(fact)
          : CompletableFuture.completedFuture(known(fact, same));
    }
    Optional<String> taken = recent.take(factId, fingerprint);
    if (taken.isPresent()) {
      return CompletableFuture.completedFuture(known(fact, fingerprint.equals(taken.get())));
    }
    try {
      return published(fact)
          .whenComplete(
              (sent, failure) -> {
                if (failure != null) {
                  recent.release(factId);
                }
              });
    } catch (RuntimeException notSent) {
      recent.release(factId);
      throw notSent;
    }
  }

  private CompletableFuture<SubmissionOutcome> published(SpecificRecord fact) {
    return processors.publishing(fact).thenApply(sent -> SubmissionOutcome.accepted(fact));
  }

  private static SubmissionOutcome known(SpecificRecord fact, boolean same) {
    return same ? SubmissionOutcome.alreadyKnown(fact) : SubmissionOutcome.conflict(fact);
  }
}
