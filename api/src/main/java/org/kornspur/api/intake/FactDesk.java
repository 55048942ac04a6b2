package org.kornspur.api.intake;

import io.micrometer.core.instrument.MeterRegistry;
import jakarta.annotation.PreDestroy;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Clock;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import org.apache.avro.specific.SpecificRecord;
import org.jboss.logging.Logger;
import org.kornspur.api.engine.Engine;
import org.kornspur.api.engine.NotReady;
import org.kornspur.contract.QuarantineEntry;
import org.kornspur.contract.QuarantineOrigin;
import org.kornspur.ingest.contract.Fingerprint;
import org.kornspur.ingest.intake.Problem;
import org.kornspur.ingest.intake.QuarantineEntries;
import org.kornspur.ingest.json.FactIntake;
import org.kornspur.ingest.json.ReadResult;
import org.kornspur.processors.stream.RegisterEntry;

/**
 * Takes facts in: reads and checks each, looks whether its id is known, and sends it to the facts
 * topic, or keeps it in the quarantine with its reasons.
 */
@ApplicationScoped
public class FactDesk {
  private static final Logger LOG = Logger.getLogger(FactDesk.class);
  private static final int REMEMBERED = 100_000;

  /** Waiting for the broker, not work, fills the time; the producer puts waiting facts together. */
  private static final int SENDERS = 16;

  private final Engine engine;
  private final MeterRegistry meters;
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
  public FactDesk(Engine engine, MeterRegistry meters) {
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
    Outcome outcome = judge(utf8, place);
    count(outcome);
    return outcome;
  }

  /**
   * Takes in many facts, each for itself. Of two facts with one id and other content in one batch,
   * one goes in and the other is refused.
   *
   * @return an outcome for each, in their order
   * @throws NotReady if nothing can be taken in now; none has been
   */
  List<Outcome> admit(List<Item> items, String requestId) {
    if (!engine.isReady()) {
      throw new NotReady("The processors are not ready: " + engine.condition(), 2);
    }
    List<CompletableFuture<Outcome>> judged =
        items.stream()
            .map(
                item ->
                    CompletableFuture.supplyAsync(
                        () ->
                            judgeOfMany(
                                item.utf8().bytes(), requestId + item.place().words()), senders))
            .toList();
    List<Outcome> outcomes = judged.stream().map(CompletableFuture::join).toList();
    outcomes.forEach(this::count);
    return outcomes;
  }

  private Outcome judge(byte[] utf8, String place) {
    ReadResult result = FactIntake.accept(utf8);
    if (result instanceof ReadResult.Refused refused) {
      return refuse(refused.problems(), utf8, place);
    }
    return admitFact(((ReadResult.Fact) result).fact(), utf8, place);
  }

  /** One that cannot be sent must not spoil the answer for the others. */
  private Outcome judgeOfMany(byte[] utf8, String place) {
    ReadResult result = FactIntake.accept(utf8);
    if (result instanceof ReadResult.Refused refused) {
      return refuse(refused.problems(), utf8, place);
    }
    SpecificRecord fact = ((ReadResult.Fact) result).fact();
    try {
      return admitFact(fact, utf8, place);
    } catch (NotReady notReady) {
      return new Outcome.Unsent(fact, notReady.getMessage());
    } catch (RuntimeException fault) {
      LOG.warnf(fault, "Fact %s could not be sent", Outcome.factId(fact));
      return new Outcome.Unsent(fact, "The broker did not take it");
    }
  }

  /** Takes in a fact that has been read and checked. */
  private Outcome admitFact(SpecificRecord fact, byte[] original, String place) {
    Outcome outcome = send(fact);
    if (outcome instanceof Outcome.Conflict conflict) {
      return new Outcome.Conflict(
          conflict.factId(),
          conflict.problems(),
          quarantine(conflict.problems(), original, place));
    }
    return outcome;
  }

  /**
   * Sends a fact that has been checked, unless its id is known. Nothing goes to the quarantine.
   *
   * @return accepted, already known, or a conflict
   */
  public Outcome send(SpecificRecord fact) {
    String factId = Outcome.factId(fact);
    String fingerprint = Fingerprint.of(fact);
    Optional<String> registered = engine.registered(factId).flatMap(RegisterEntry::fingerprint);
    if (registered.isPresent()) {
      return known(fact, fingerprint.equals(registered.get()));
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
    Problem problem =
        new Problem(
            "header.factId",
            Problem.shown(factId),
            "an id that no fact with other content has",
            "Give this fact an id of its own; if the earlier one was wrong, set"
                + " header.correction.supersedes to "
                + factId
                + " and header.correction.reason to why");
    return new Outcome.Conflict(factId, List.of(problem), "");
  }

  private Outcome refuse(List<Problem> problems, byte[] original, String place) {
    return new Outcome.Refused(problems, quarantine(problems, original, place));
  }

  private String quarantine(List<Problem> problems, byte[] original, String place) {
    QuarantineEntry entry =
        QuarantineEntries.held(
            QuarantineOrigin.HTTP, place, clock.instant(), problems, null, original);
    engine.quarantine(entry);
    return entry.getEntryId();
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
