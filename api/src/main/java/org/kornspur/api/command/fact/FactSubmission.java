package org.kornspur.api.command.fact;

import io.micrometer.core.instrument.MeterRegistry;
import io.netty.util.concurrent.DefaultThreadFactory;
import jakarta.annotation.PreDestroy;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import org.apache.avro.specific.SpecificRecord;
import org.jboss.logging.Logger;
import org.kornspur.api.kafka.IntakeLimit;
import org.kornspur.api.kafka.NotReady;
import org.kornspur.api.kafka.ProcessorsClient;
import org.kornspur.api.problem.NotReadyDetail;
import org.kornspur.ingest.attestation.SignedSubmissions;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Fingerprint;
import org.kornspur.ingest.intake.Problem;
import org.kornspur.ingest.json.ReadResult;

/**
 * Takes facts in, one or many: has {@link SubmissionRights} check each, and has {@link FactSender}
 * send it or {@link RefusedInputs} keep it with its reasons.
 */
@ApplicationScoped
public class FactSubmission {
  private static final Logger LOG = Logger.getLogger(FactSubmission.class);

  /** They sign, and look ids up at other instances; none waits for the broker. */
  private static final int SENDERS = 16;

  @Inject ProcessorsClient processors;
  @Inject MeterRegistry meters;
  @Inject SubmissionRights admission;
  @Inject FactSender sender;
  @Inject RefusedInputs refusedInputs;
  @Inject IntakeLimit limit;
  private final ExecutorService senders =
      Executors.newFixedThreadPool(SENDERS, new DefaultThreadFactory("fact-sender", true));

  @PreDestroy
  void close() {
    senders.shutdown();
  }

  /**
   * Takes in one fact.
   *
   * @throws NotReady if nothing can be said of its id now, or there is no room for more
   */
  SubmissionOutcome admit(ReadInput input) {
    limit.requireRoom();
    Optional<SubmissionOutcome> refused =
        input.result() instanceof ReadResult.Fact fact
            ? admission.refusedAtOnce(fact.fact(), false)
            : Optional.of(refused(input));
    SubmissionOutcome outcome =
        refused
            .map(atOnce -> refusedInputs.kept(atOnce, input))
            .orElseGet(() -> send(admission.signed(factOf(input)), input));
    count(outcome);
    return outcome;
  }

  /**
   * Sends a fact that has been checked, if the caller may bring it.
   *
   * @return accepted, already known, a conflict, or not allowed
   * @throws NotReady if nothing can be said of its id now, or there is no room for more
   */
  SubmissionOutcome sendAsCaller(SpecificRecord fact) {
    limit.requireRoom();
    return admission
        .refusedAtOnce(fact, false)
        .orElseGet(() -> sender.send(admission.signed(fact)));
  }

  /**
   * Takes in many inputs, each for itself. Of facts with one id the first goes first, so that of
   * two with other content it is the second that is refused.
   *
   * @return an outcome for each, in their order
   * @throws NotReady if nothing can be taken in now; none has been
   */
  public List<SubmissionOutcome> admit(List<ReadInput> inputs) {
    if (!processors.isReady()) {
      throw new NotReady(new NotReadyDetail.NotRunning(), 2);
    }
    limit.requireRoom();
    Map<String, Started> lastOfId = new HashMap<>();
    List<CompletableFuture<SubmissionOutcome>> started =
        inputs.stream().map(input -> start(input, lastOfId)).toList();
    List<SubmissionOutcome> outcomes = started.stream().map(CompletableFuture::join).toList();
    outcomes.forEach(this::count);
    return outcomes;
  }

  /** The latest fact of an id in a request, and what will have become of it. */
  private record Started(String fingerprint, CompletableFuture<SubmissionOutcome> outcome) {}

  private CompletableFuture<SubmissionOutcome> start(
      ReadInput input, Map<String, Started> lastOfId) {
    if (input.result() instanceof ReadResult.Refused) {
      return keep(refused(input), input);
    }
    SpecificRecord fact = factOf(input);
    String fingerprint = Fingerprint.of(fact);
    Started earlier = lastOfId.get(FactType.idOf(fact));
    boolean isOther = earlier != null && !earlier.fingerprint().equals(fingerprint);
    Optional<SubmissionOutcome> refused = admission.refusedAtOnce(fact, isOther);
    if (refused.isPresent()) {
      return keep(refused.get(), input);
    }
    SignedSubmissions.Sender by = admission.sender(fact);
    CompletableFuture<?> before =
        earlier == null ? CompletableFuture.completedFuture(null) : earlier.outcome();
    CompletableFuture<SubmissionOutcome> outcome =
        before.thenComposeAsync(done -> sendOneOfMany(fact, by, input), senders);
    lastOfId.put(FactType.idOf(fact), new Started(fingerprint, outcome));
    return outcome;
  }

  private CompletableFuture<SubmissionOutcome> keep(SubmissionOutcome refused, ReadInput input) {
    return CompletableFuture.supplyAsync(() -> refusedInputs.kept(refused, input), senders);
  }

  /** One that cannot be sent must not spoil the answer for the others. */
  private CompletableFuture<SubmissionOutcome> sendOneOfMany(
      SpecificRecord fact, SignedSubmissions.Sender by, ReadInput input) {
    try {
      SpecificRecord signed = admission.signed(fact, by);
      List<Problem> problems = admission.problemsAtReceipt(signed);
      return (problems.isEmpty()
              ? sender.begin(signed)
              : CompletableFuture.completedFuture(SubmissionOutcome.refused(problems)))
          .thenApply(outcome -> refusedInputs.kept(outcome, input))
          .exceptionally(fault -> unsent(fact, fault.getCause()));
    } catch (RuntimeException fault) {
      return CompletableFuture.completedFuture(unsent(fact, fault));
    }
  }

  private static SubmissionOutcome unsent(SpecificRecord fact, Throwable fault) {
    if (fault instanceof NotReady notReady) {
      return SubmissionOutcome.unsent(fact, notReady.detail());
    }
    LOG.warnf(fault, "Fact %s could not be sent", FactType.idOf(fact));
    return SubmissionOutcome.unsent(fact, new NotReadyDetail.FactNotTaken());
  }

  private SubmissionOutcome send(SpecificRecord signed, ReadInput input) {
    List<Problem> problems = admission.problemsAtReceipt(signed);
    return refusedInputs.kept(
        problems.isEmpty() ? sender.send(signed) : SubmissionOutcome.refused(problems), input);
  }

  private static SubmissionOutcome refused(ReadInput input) {
    return SubmissionOutcome.refused(((ReadResult.Refused) input.result()).problems());
  }

  private static SpecificRecord factOf(ReadInput input) {
    return ((ReadResult.Fact) input.result()).fact();
  }

  private void count(SubmissionOutcome outcome) {
    meters.counter("kornspur.facts.received", "outcome", outcome.kind().word()).increment();
  }
}
