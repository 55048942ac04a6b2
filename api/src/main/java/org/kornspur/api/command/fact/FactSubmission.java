package org.kornspur.api.command.fact;

import io.micrometer.core.instrument.MeterRegistry;
import jakarta.annotation.PreDestroy;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.nio.charset.StandardCharsets;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import org.apache.avro.specific.SpecificRecord;
import org.jboss.logging.Logger;
import org.kornspur.api.kafka.Engine;
import org.kornspur.api.kafka.NotReady;
import org.kornspur.api.problem.NotReadyDetail;
import org.kornspur.api.security.CurrentCaller;
import org.kornspur.ingest.contract.Fingerprint;
import org.kornspur.ingest.intake.Problem;
import org.kornspur.ingest.json.FactParser;
import org.kornspur.ingest.json.ReadResult;

/**
 * Takes facts in, one or many: reads each, has {@link Admission} check it, and has {@link
 * FactSender} send it or {@link RefusedInputs} keep it with its reasons.
 */
@ApplicationScoped
public class FactSubmission {
  private static final Logger LOG = Logger.getLogger(FactSubmission.class);

  /** Waiting for the broker, not work, fills the time; the producer puts waiting facts together. */
  private static final int SENDERS = 16;

  @Inject Engine engine;
  @Inject MeterRegistry meters;
  @Inject Admission admission;
  @Inject FactSender sender;
  @Inject RefusedInputs refusedInputs;
  @Inject CurrentCaller caller;
  private final ExecutorService senders =
      Executors.newFixedThreadPool(
          SENDERS,
          task -> {
            Thread thread = new Thread(task, "fact-sender");
            thread.setDaemon(true);
            return thread;
          });

  @PreDestroy
  void close() {
    senders.shutdown();
  }

  /**
   * Takes in one fact.
   *
   * @param place for the quarantine, where it is refused
   * @throws NotReady if nothing can be said of its id now
   */
  public Outcome admit(byte[] utf8, String place) {
    RefusedInputs.Source source = new RefusedInputs.Source(utf8, place, caller.get().personId());
    Outcome outcome = admit(FactParser.accept(utf8), source);
    count(outcome);
    return outcome;
  }

  private Outcome admit(ReadResult read, RefusedInputs.Source source) {
    if (read instanceof ReadResult.Refused refused) {
      return refusedInputs.refuse(refused.problems(), source);
    }
    SpecificRecord fact = ((ReadResult.Fact) read).fact();
    return admission
        .refusedAtOnce(fact, false)
        .map(outcome -> refusedInputs.kept(outcome, source))
        .orElseGet(() -> admitFact(admission.signed(fact), source));
  }

  /**
   * Sends a fact that has been checked, if who asks may bring it.
   *
   * @return accepted, already known, a conflict, or not allowed
   */
  Outcome sendAsCaller(SpecificRecord fact) {
    return admission
        .refusedAtOnce(fact, false)
        .orElseGet(() -> sender.send(admission.signed(fact)));
  }

  /**
   * Takes in many facts, each for itself. Of facts with one id the first goes first, so that of two
   * with other content it is the second that is refused.
   *
   * @return an outcome for each, in their order
   * @throws NotReady if nothing can be taken in now; none has been
   */
  List<Outcome> admit(List<Item> items, String requestId) {
    return admitRead(
        items.stream()
            .map(
                item ->
                    new ReadInput(
                        FactParser.accept(item.utf8().bytes()),
                        item.utf8(),
                        requestId + item.place().words()))
            .toList());
  }

  /**
   * An input that has been read and checked, from whatever form it came in.
   *
   * @param original as it came, for the quarantine
   * @param place for the quarantine
   */
  public record ReadInput(ReadResult result, Item.Text original, String place) {

    /** An input that came as text. */
    public static ReadInput ofText(ReadResult result, String original, String place) {
      return new ReadInput(result, new Item.Text(original.getBytes(StandardCharsets.UTF_8)), place);
    }
  }

  /**
   * Takes in many inputs that have been read, each for itself. Of facts with one id the first goes
   * first, so that of two with other content it is the second that is refused.
   *
   * @return an outcome for each, in their order
   * @throws NotReady if nothing can be taken in now; none has been
   */
  public List<Outcome> admitRead(List<ReadInput> inputs) {
    if (!engine.isReady()) {
      throw new NotReady(new NotReadyDetail.NotRunning(), 2);
    }
    Map<String, Started> lastOfId = new HashMap<>();
    List<CompletableFuture<Outcome>> started =
        inputs.stream().map(input -> start(input, lastOfId)).toList();
    List<Outcome> outcomes = started.stream().map(CompletableFuture::join).toList();
    outcomes.forEach(this::count);
    return outcomes;
  }

  /** The latest fact of an id in a request, and what will have become of it. */
  private record Started(String fingerprint, CompletableFuture<Outcome> outcome) {}

  private CompletableFuture<Outcome> start(ReadInput input, Map<String, Started> lastOfId) {
    RefusedInputs.Source source =
        new RefusedInputs.Source(input.original().bytes(), input.place(), caller.get().personId());
    ReadResult read = input.result();
    if (read instanceof ReadResult.Refused refused) {
      return CompletableFuture.supplyAsync(
          () -> refusedInputs.refuse(refused.problems(), source), senders);
    }
    SpecificRecord fact = ((ReadResult.Fact) read).fact();
    String fingerprint = Fingerprint.of(fact);
    Started earlier = lastOfId.get(Outcome.factId(fact));
    boolean isOther = earlier != null && !earlier.fingerprint().equals(fingerprint);
    Optional<Outcome> refused = admission.refusedAtOnce(fact, isOther);
    if (refused.isPresent()) {
      return CompletableFuture.supplyAsync(
          () -> refusedInputs.kept(refused.get(), source), senders);
    }
    SpecificRecord signed = admission.signed(fact);
    CompletableFuture<Outcome> outcome =
        earlier == null
            ? CompletableFuture.supplyAsync(() -> admitOfMany(signed, source), senders)
            : earlier.outcome().thenApplyAsync(done -> admitOfMany(signed, source), senders);
    lastOfId.put(Outcome.factId(fact), new Started(fingerprint, outcome));
    return outcome;
  }

  /** One that cannot be sent must not spoil the answer for the others. */
  private Outcome admitOfMany(SpecificRecord fact, RefusedInputs.Source source) {
    try {
      return admitFact(fact, source);
    } catch (NotReady notReady) {
      return new Outcome.Unsent(fact, notReady.detail());
    } catch (RuntimeException fault) {
      LOG.warnf(fault, "Fact %s could not be sent", Outcome.factId(fact));
      return new Outcome.Unsent(fact, new NotReadyDetail.FactNotTaken());
    }
  }

  /** Takes in a fact that has been read and checked. */
  private Outcome admitFact(SpecificRecord fact, RefusedInputs.Source source) {
    List<Problem> problems = admission.problemsAtReceipt(fact);
    if (!problems.isEmpty()) {
      return refusedInputs.refuse(problems, source);
    }
    return refusedInputs.kept(sender.send(fact), source);
  }

  private void count(Outcome outcome) {
    meters.counter("kornspur.facts.received", "outcome", word(outcome)).increment();
  }

  /** The outcome in the words of the interface. */
  public static String word(Outcome outcome) {
    if (outcome instanceof Outcome.Accepted) {
      return "accepted";
    }
    if (outcome instanceof Outcome.AlreadyKnown) {
      return "already-known";
    }
    return outcome instanceof Outcome.Unsent ? "unsent" : "refused";
  }
}
