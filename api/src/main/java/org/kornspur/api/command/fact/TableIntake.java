package org.kornspur.api.command.fact;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.context.control.ActivateRequestContext;
import jakarta.inject.Inject;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.api.kafka.NotReady;
import org.kornspur.api.kafka.ProcessorsClient;
import org.kornspur.api.security.Caller;
import org.kornspur.api.security.CurrentCaller;
import org.kornspur.api.security.visibility.PreviewClaims;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Fingerprint;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.file.FactTable;
import org.kornspur.ingest.file.TableRow;
import org.kornspur.ingest.intake.Problem;
import org.kornspur.ingest.json.AvroJson;
import org.kornspur.ingest.json.ReadResult;
import org.kornspur.ingest.problem.RecordProblem;
import org.kornspur.ingest.sheet.UnreadableTable;
import org.kornspur.processors.dossier.Entry;
import org.kornspur.processors.stream.RegisterEntry;

/**
 * Takes the rows of a person's table in: looked at first, when nothing is kept, then recorded. It
 * runs in a thread of its own, with the rights of the person who sent the table.
 */
@ApplicationScoped
public class TableIntake {
  private static final int ROWS_AT_ONCE = 2_000;
  private static final Duration LONGEST_WAIT = Duration.ofMinutes(2);
  private static final Duration LONGEST_WAIT_FOR_PROCESSING = Duration.ofSeconds(10);
  private static final Duration BETWEEN_LOOKS = Duration.ofMillis(250);

  @Inject SubmissionRights rights;
  @Inject FactSubmission submission;
  @Inject ProcessorsClient processors;
  @Inject CurrentCaller current;
  @Inject PreviewClaims preview;

  /** What becomes of a row. */
  public enum Fate {
    /** It can be recorded. */
    NEW,
    /** It was recorded before. */
    THERE,
    REFUSED,
    RECORDED,
    /** Nothing is wrong with it, but it could not be sent. */
    UNSENT
  }

  /**
   * A row and what becomes of it.
   *
   * @param problems what is wrong; empty where nothing is
   */
  public record Line(TableRow row, Fate fate, List<Problem> problems) {}

  /** Looks at every row, in order; nothing is kept of it. */
  @ActivateRequestContext
  public void look(FactTable table, Caller caller, Consumer<Line> into)
      throws IOException, UnreadableTable {
    current.set(caller);
    preview.begin();
    awaitProcessing();
    table.read(row -> into.accept(lineOf(row, true)));
  }

  /** Records every row that can be, in order; what cannot stays with the person. */
  @ActivateRequestContext
  public void record(FactTable table, Caller caller, Consumer<Line> into)
      throws IOException, UnreadableTable {
    current.set(caller);
    List<TableRow> waiting = new ArrayList<>();
    table.read(
        row -> {
          Line line = lineOf(row, false);
          if (line.fate() == Fate.NEW) {
            waiting.add(row);
          } else {
            into.accept(line);
          }
          if (waiting.size() == ROWS_AT_ONCE) {
            send(waiting, caller, into);
          }
        });
    send(waiting, caller, into);
  }

  /** What was sent a moment ago is told as there only once it is processed. */
  private void awaitProcessing() {
    while (!processors.isReady()) {
      pause();
    }
    long end = System.nanoTime() + LONGEST_WAIT_FOR_PROCESSING.toNanos();
    while (processors.lag().values().stream().mapToLong(Long::longValue).sum() > 0
        && System.nanoTime() < end) {
      pause();
    }
  }

  private Line lineOf(TableRow row, boolean withRights) {
    if (!(row.result() instanceof ReadResult.Fact read)) {
      return new Line(row, Fate.REFUSED, row.problems());
    }
    SpecificRecord fact = read.fact();
    Optional<RegisterEntry> registered =
        processors.registered(FactType.idOf(fact)).filter(known -> known.fingerprint().isPresent());
    if (registered.isPresent()) {
      return isThere(row, fact, registered.get())
          ? new Line(row, Fate.THERE, List.of())
          : new Line(row, Fate.REFUSED, List.of(otherContent(fact)));
    }
    if (!withRights) {
      return new Line(row, Fate.NEW, List.of());
    }
    Optional<SubmissionOutcome> refused = rights.refusedAtOnce(fact, false);
    List<Problem> problems =
        refused.map(SubmissionOutcome::problems).orElseGet(() -> rights.problemsAtReceipt(fact));
    return new Line(row, problems.isEmpty() ? Fate.NEW : Fate.REFUSED, problems);
  }

  private static Problem otherContent(SpecificRecord fact) {
    return Problem.of("header.factId", FactType.idOf(fact), new RecordProblem.OtherContent());
  }

  /** Whether the fact with the id of a row says what the row says. */
  private boolean isThere(TableRow row, SpecificRecord fact, RegisterEntry registered) {
    if (registered.fingerprint().filter(Fingerprint.of(fact)::equals).isPresent()) {
      return true;
    }
    return registered.subjects().stream()
        .map(Subject::parse)
        .sorted(Comparator.comparing(Subject::kind))
        .flatMap(subject -> processors.entries(subject).stream())
        .map(Entry::fact)
        .filter(recorded -> FactType.idOf(recorded).equals(FactType.idOf(fact)))
        .findFirst()
        .filter(recorded -> row.saysTheSameAs(recorded, fact))
        .isPresent();
  }

  private void send(List<TableRow> rows, Caller caller, Consumer<Line> into) {
    if (rows.isEmpty()) {
      return;
    }
    List<ReadInput> inputs = rows.stream().map(row -> input(row, caller)).toList();
    List<SubmissionOutcome> outcomes = admitted(inputs);
    for (int at = 0; at < rows.size(); at++) {
      SubmissionOutcome outcome = outcomes.get(at);
      into.accept(new Line(rows.get(at), fate(outcome), outcome.problems()));
    }
    rows.clear();
  }

  private static ReadInput input(TableRow row, Caller caller) {
    SpecificRecord fact = ((ReadResult.Fact) row.result()).fact();
    return new ReadInput(
        row.result(),
        AvroJson.write(fact).toString().getBytes(StandardCharsets.UTF_8),
        FactType.headerOf(fact).getSourceDocument() + ", row " + row.row().number(),
        caller.personId());
  }

  /** Waits where too much waits to be processed: a table is a rush. */
  private List<SubmissionOutcome> admitted(List<ReadInput> inputs) {
    long end = System.nanoTime() + LONGEST_WAIT.toNanos();
    while (true) {
      try {
        return submission.admit(inputs);
      } catch (NotReady later) {
        if (System.nanoTime() > end) {
          return inputs.stream()
              .map(input -> ((ReadResult.Fact) input.result()).fact())
              .map(fact -> SubmissionOutcome.unsent(fact, later.detail()))
              .toList();
        }
        pause();
      }
    }
  }

  private static void pause() {
    try {
      Thread.sleep(BETWEEN_LOOKS.toMillis());
    } catch (InterruptedException ended) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException("The program ends", ended);
    }
  }

  private static Fate fate(SubmissionOutcome outcome) {
    return switch (outcome.kind()) {
      case ACCEPTED -> Fate.RECORDED;
      case ALREADY_KNOWN -> Fate.THERE;
      case REFUSED, CONFLICT, NOT_ALLOWED -> Fate.REFUSED;
      case UNSENT -> Fate.UNSENT;
    };
  }
}
