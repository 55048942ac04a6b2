package org.kornspur.api.command.fact;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Clock;
import java.util.List;
import java.util.Optional;
import org.apache.avro.specific.SpecificRecord;
import org.jboss.logging.Logger;
import org.kornspur.api.kafka.SiteKeys;
import org.kornspur.api.security.CurrentCaller;
import org.kornspur.api.security.visibility.PostingPolicy;
import org.kornspur.ingest.attestation.SignedSubmissions;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.intake.Problem;
import org.kornspur.ingest.intake.ReceiptCheck;
import org.kornspur.processors.ground.PlaceableFacts;

/** Whether the caller may bring a fact, and whether the stream would take it. */
@ApplicationScoped
class SubmissionRights {
  private static final Logger LOG = Logger.getLogger(SubmissionRights.class);

  @Inject PostingPolicy rights;
  @Inject CurrentCaller caller;
  @Inject SiteKeys keys;
  @Inject FactSender sender;
  private final Clock clock = Clock.systemUTC();

  /**
   * Asked in the thread of the request, which knows the caller. That an id is taken is told last:
   * what is wrong otherwise is told alone, and kept.
   *
   * @param isOtherThanBefore whether a fact before it in the request has its id and other content
   */
  Optional<SubmissionOutcome> refusedAtOnce(SpecificRecord fact, boolean isOtherThanBefore) {
    List<Problem> problems = rights.against(fact);
    if (!problems.isEmpty()) {
      return Optional.of(notAllowed(fact, problems));
    }
    List<Problem> taken = rights.againstNewIds(fact);
    if (taken.isEmpty()) {
      rights.goesIn(fact);
      return Optional.empty();
    }
    List<Problem> early = problemsAtReceipt(fact);
    if (!early.isEmpty()) {
      return Optional.of(SubmissionOutcome.refused(early));
    }
    return Optional.of(
        isOtherThanBefore || sender.knowsOtherContent(fact)
            ? SubmissionOutcome.conflict(fact)
            : notAllowed(fact, taken));
  }

  /**
   * What speaks against a fact, as far as it can be told without taking it in: whether an id that
   * it would give is taken is told then.
   */
  List<Problem> problemsOf(SpecificRecord fact) {
    List<Problem> problems = rights.against(fact);
    return problems.isEmpty() ? problemsAtReceipt(fact) : problems;
  }

  private SubmissionOutcome notAllowed(SpecificRecord fact, List<Problem> problems) {
    LOG.infof(
        "%s may not bring this %s: %s",
        caller.get().personId(), FactType.of(fact).contractName(), problems.get(0).field());
    return SubmissionOutcome.notAllowed(fact, problems);
  }

  /**
   * The fact with the proof of who brings it, in the thread of the request, which knows the caller.
   */
  SpecificRecord signed(SpecificRecord fact) {
    return signed(fact, sender(fact));
  }

  /** Who brings a fact, asked in the thread of the request. */
  SignedSubmissions.Sender sender(SpecificRecord fact) {
    return rights.sender(fact);
  }

  /** The fact with the proof of its sender, in any thread: signing many is work. */
  SpecificRecord signed(SpecificRecord fact, SignedSubmissions.Sender by) {
    return SignedSubmissions.sign(fact, by, keys.signing());
  }

  /**
   * What the stream would refuse in a sound fact: times ahead of the clock, land that cannot be
   * measured. The sender is told at once.
   */
  List<Problem> problemsAtReceipt(SpecificRecord fact) {
    List<Problem> early = ReceiptCheck.check(fact, clock.instant());
    return early.isEmpty() ? PlaceableFacts.problemsOf(fact) : early;
  }
}
