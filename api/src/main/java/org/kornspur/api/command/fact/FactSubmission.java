package org.kornspur.api.command.fact;

import io.micrometer.core.instrument.MeterRegistry;
import jakarta.annotation.PreDestroy;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.nio.charset.StandardCharsets;
import java.time.Clock;
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
import org.kornspur.api.kafka.SiteKeys;
import org.kornspur.api.problem.NotReadyDetail;
import org.kornspur.api.readmodel.Feeds;
import org.kornspur.api.security.CurrentCaller;
import org.kornspur.api.security.visibility.PostingPolicy;
import org.kornspur.contract.QuarantineEntry;
import org.kornspur.contract.QuarantineOrigin;
import org.kornspur.ingest.act.SignedSubmissions;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Fingerprint;
import org.kornspur.ingest.intake.Problem;
import org.kornspur.ingest.intake.QuarantineEntries;
import org.kornspur.ingest.intake.ReceiptCheck;
import org.kornspur.ingest.json.FactParser;
import org.kornspur.ingest.json.ReadResult;
import org.kornspur.ingest.problem.RecordProblem;
import org.kornspur.processors.ground.PlaceableFacts;
import org.kornspur.processors.stream.RegisterEntry;

/**
 * Takes facts in: reads and checks each, looks whether its id is known, and sends it to the facts
 * topic, or keeps it in the quarantine with its reasons.
 */
@ApplicationScoped
public class FactSubmission {
  private static final Logger LOG = Logger.getLogger(FactSubmission.class);
  private static final int REMEMBERED = 100_000;

  /** Waiting for the broker, not work, fills the time; the producer puts waiting facts together. */
  private static final int SENDERS = 16;

  private final Engine engine;
  private final Feeds feeds;
  private final MeterRegistry meters;
  private final PostingPolicy rights;
  private final CurrentCaller caller;
  private final SiteKeys keys;
  private final Clock clock = Clock.systemUTC();
  private final RecentFacts recent = new RecentFacts(REMEMBERED);
  private final ExecutorService senders =
      Executors.newFixedThreadPool(
          SENDERS,
          task -> {
            Thread thread = new Thread(task, "fact-sender");
            thread.setDaemon(true);
            return thread;
          });

  @Inject
  public FactSubmission(
      Engine engine,
      Feeds feeds,
      MeterRegistry meters,
      PostingPolicy rights,
      CurrentCaller caller,
      SiteKeys keys) {
    this.keys = keys;
    this.feeds = feeds;
    this.rights = rights;
    this.caller = caller;
    this.engine = engine;
    this.meters = meters;
  }

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
    Source source = new Source(utf8, place, caller.get().personId());
    Outcome outcome = admit(FactParser.accept(utf8), source);
    count(outcome);
    return outcome;
  }

  private Outcome admit(ReadResult read, Source source) {
    if (read instanceof ReadResult.Refused refused) {
      return refuse(refused.problems(), source);
    }
    SpecificRecord fact = ((ReadResult.Fact) read).fact();
    return refusedAtOnce(fact, false)
        .map(outcome -> kept(outcome, source))
        .orElseGet(() -> admitFact(signed(fact), source));
  }

  /**
   * What was sent.
   *
   * @param place for the quarantine, where it is refused
   * @param personId who sent it
   */
  private record Source(byte[] utf8, String place, String personId) {}

  /**
   * Asked in the thread of the request, which knows who asks. That an id is taken is told last:
   * what is wrong otherwise is told alone, and kept.
   *
   * @param isOtherThanBefore whether a fact before it in the request has its id and other content
   */
  private Optional<Outcome> refusedAtOnce(SpecificRecord fact, boolean isOtherThanBefore) {
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
      return Optional.of(new Outcome.Refused(early, Optional.empty()));
    }
    return Optional.of(
        isOtherThanBefore || hasOtherContent(fact)
            ? conflict(Outcome.factId(fact))
            : notAllowed(fact, taken));
  }

  private Outcome notAllowed(SpecificRecord fact, List<Problem> problems) {
    LOG.infof(
        "%s may not bring this %s: %s",
        caller.get().personId(), FactType.of(fact).contractName(), problems.get(0).field());
    return new Outcome.NotAllowed(Outcome.factId(fact), problems);
  }

  private boolean hasOtherContent(SpecificRecord fact) {
    String factId = Outcome.factId(fact);
    return engine
        .registered(factId)
        .flatMap(RegisterEntry::fingerprint)
        .or(() -> recent.fingerprint(factId))
        .filter(known -> !known.equals(Fingerprint.of(fact)))
        .isPresent();
  }

  /** The outcome with what was sent kept in the quarantine, where it belongs there. */
  private Outcome kept(Outcome outcome, Source source) {
    if (outcome instanceof Outcome.Refused refused) {
      return refuse(refused.problems(), source);
    }
    return outcome instanceof Outcome.Conflict conflict
        ? new Outcome.Conflict(
            conflict.factId(), conflict.problems(), quarantine(conflict.problems(), source))
        : outcome;
  }

  /**
   * Sends a fact that has been checked, if who asks may bring it.
   *
   * @return accepted, already known, a conflict, or not allowed
   */
  Outcome sendAsCaller(SpecificRecord fact) {
    return refusedAtOnce(fact, false).orElseGet(() -> send(signed(fact)));
  }

  /**
   * The fact with the proof of who brings it. All that the interface takes in passes here, in the
   * thread of the request, which knows who asks.
   */
  private SpecificRecord signed(SpecificRecord fact) {
    return SignedSubmissions.sign(fact, rights.sender(fact), keys.signing());
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
    Source source = new Source(input.original().bytes(), input.place(), caller.get().personId());
    ReadResult read = input.result();
    if (read instanceof ReadResult.Refused refused) {
      return CompletableFuture.supplyAsync(() -> refuse(refused.problems(), source), senders);
    }
    SpecificRecord fact = ((ReadResult.Fact) read).fact();
    String fingerprint = Fingerprint.of(fact);
    Started earlier = lastOfId.get(Outcome.factId(fact));
    boolean isOther = earlier != null && !earlier.fingerprint().equals(fingerprint);
    Optional<Outcome> refused = refusedAtOnce(fact, isOther);
    if (refused.isPresent()) {
      return CompletableFuture.supplyAsync(() -> kept(refused.get(), source), senders);
    }
    SpecificRecord signed = signed(fact);
    CompletableFuture<Outcome> outcome =
        earlier == null
            ? CompletableFuture.supplyAsync(() -> admitOfMany(signed, source), senders)
            : earlier.outcome().thenApplyAsync(done -> admitOfMany(signed, source), senders);
    lastOfId.put(Outcome.factId(fact), new Started(fingerprint, outcome));
    return outcome;
  }

  /** One that cannot be sent must not spoil the answer for the others. */
  private Outcome admitOfMany(SpecificRecord fact, Source source) {
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
  private Outcome admitFact(SpecificRecord fact, Source source) {
    List<Problem> problems = problemsAtReceipt(fact);
    if (!problems.isEmpty()) {
      return refuse(problems, source);
    }
    return kept(send(fact), source);
  }

  /**
   * What the stream would refuse in a sound fact: times ahead of the clock, land that cannot be
   * measured. The sender is told at once.
   */
  List<Problem> problemsAtReceipt(SpecificRecord fact) {
    List<Problem> early = ReceiptCheck.check(fact, clock.instant());
    return early.isEmpty() ? PlaceableFacts.problemsOf(fact) : early;
  }

  /**
   * Sends a signed fact that has been checked, unless its id is known. A known fact goes in again
   * where it is brought in a role that may do more than any before: so somebody with the right to
   * it confirms what came by a file. Nothing goes to the quarantine.
   *
   * @return accepted, already known, or a conflict
   */
  private Outcome send(SpecificRecord fact) {
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

  private static Outcome conflict(String factId) {
    Problem problem = Problem.of("header.factId", factId, new RecordProblem.OtherContent());
    return new Outcome.Conflict(factId, List.of(problem), Optional.empty());
  }

  private Outcome refuse(List<Problem> problems, Source source) {
    return new Outcome.Refused(problems, quarantine(problems, source));
  }

  /**
   * The refusal stands even where its copy cannot be kept; the sender has the original. What the
   * sender sent before is not kept again, for the topic keeps only the latest of each key, and it
   * is the first that must stay.
   */
  private Optional<String> quarantine(List<Problem> problems, Source source) {
    QuarantineEntry held =
        QuarantineEntries.held(
            QuarantineOrigin.HTTP, source.place(), clock.instant(), problems, null, source.utf8());
    QuarantineEntry entry =
        QuarantineEntry.newBuilder(held).setSubmittedBy(source.personId()).build();
    try {
      if (!isKept(entry)) {
        engine.quarantine(entry);
      }
      return Optional.of(entry.getEntryId());
    } catch (RuntimeException fault) {
      LOG.warnf(fault, "Refused input of %s could not be kept in the quarantine", source.place());
      return Optional.empty();
    }
  }

  private boolean isKept(QuarantineEntry entry) {
    try {
      return feeds.quarantine().senders(entry.getEntryId()).contains(entry.getSubmittedBy());
    } catch (NotReady stillReading) {
      return false;
    }
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
