package org.kornspur.api.command.table;

import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.api.command.fact.TableIntake.Fate;
import org.kornspur.api.command.fact.TableIntake.Line;
import org.kornspur.api.security.Caller;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.contract.SubjectsNamed;
import org.kornspur.ingest.file.DetectedTable;
import org.kornspur.ingest.file.RefusedRow;
import org.kornspur.ingest.file.RefusedTables;
import org.kornspur.ingest.intake.Problem;
import org.kornspur.ingest.json.ReadResult;

/**
 * A table that a person sent, and how far it is. Many threads read it while one goes through it.
 */
public final class SentTable {
  /** Lines that are kept to be shown; of a longer table the others are counted. */
  static final int MOST_SHOWN = 20_000;

  private final String id = UUID.randomUUID().toString();
  private final Caller caller;
  private final Path file;
  private final String fileName;
  private final Instant sentAt;

  private Step step = Step.READING;
  private Optional<DetectedTable> form = Optional.empty();
  private Optional<Problem> refusal = Optional.empty();
  private TableChoices choices = TableChoices.NONE;
  private final Map<Fate, Integer> counts = new EnumMap<>(Fate.class);
  private final List<Shown> lines = new ArrayList<>();
  private final List<RefusedRow> refused = new ArrayList<>();
  private List<String> remembered = List.of();
  private int toRecord;

  /** How far it is. */
  public enum Step {
    READING,
    READ,
    RECORDING,
    RECORDED,
    /** No row of it can be read. */
    UNREADABLE
  }

  /**
   * A line as it is shown.
   *
   * @param sheet place of its sheet among those read, from 0
   * @param row as the spreadsheet numbers it
   */
  public record Shown(
      int sheet,
      int row,
      Fate fate,
      Optional<FactType> kind,
      List<Subject> subjects,
      Optional<Instant> happenedAt,
      List<Problem> problems) {}

  SentTable(Caller caller, Path file, String fileName, Instant sentAt) {
    this.caller = caller;
    this.file = file;
    this.fileName = fileName;
    this.sentAt = sentAt;
  }

  public String id() {
    return id;
  }

  Caller caller() {
    return caller;
  }

  Path file() {
    return file;
  }

  public String fileName() {
    return fileName;
  }

  Instant sentAt() {
    return sentAt;
  }

  public synchronized Step step() {
    return step;
  }

  /** What was told of it; empty while it is read, or where it cannot be. */
  public synchronized Optional<DetectedTable> form() {
    return form;
  }

  /** Why no row of it can be read. */
  public synchronized Optional<Problem> refusal() {
    return refusal;
  }

  /** What the person said of it. */
  public synchronized TableChoices choices() {
    return choices;
  }

  public synchronized int count(Fate fate) {
    return counts.getOrDefault(fate, 0);
  }

  /** Rows gone through in this step. */
  public synchronized int done() {
    return counts.values().stream().mapToInt(Integer::intValue).sum();
  }

  /** Rows there were when it was read. */
  public synchronized int all() {
    return toRecord;
  }

  /** Whether there is something to record, and no column of it of which nobody said what it is. */
  public synchronized boolean canBeRecorded() {
    return step == Step.READ
        && count(Fate.NEW) > 0
        && form.stream()
            .flatMap(told -> told.sheets().stream())
            .allMatch(s -> s.unknown().isEmpty());
  }

  /** Some of the lines of a fate, in order. */
  public synchronized List<Shown> lines(Optional<Fate> fate, int from, int most) {
    return lines.stream()
        .filter(line -> fate.isEmpty() || line.fate() == fate.get())
        .skip(from)
        .limit(most)
        .toList();
  }

  public synchronized List<RefusedRow> refused() {
    return List.copyOf(refused);
  }

  /**
   * Begins to go through the rows.
   *
   * @return whether it was at a step from which this one may be begun
   */
  synchronized boolean begin(Step next, TableChoices chosen) {
    if (step == Step.RECORDING || (next == Step.RECORDING && !canBeRecorded())) {
      return false;
    }
    step = next;
    if (!chosen.equals(choices)) {
      remembered = List.of();
    }
    choices = chosen;
    refusal = Optional.empty();
    counts.clear();
    lines.clear();
    refused.clear();
    return true;
  }

  /** Names of columns that are read as people said before; none once the person said it anew. */
  public synchronized List<String> remembered() {
    return remembered;
  }

  synchronized void remembers(Map<String, String> columns) {
    choices = choices.with(columns);
    remembered = List.copyOf(columns.keySet());
  }

  synchronized void told(DetectedTable told) {
    form = Optional.of(told);
  }

  synchronized void ended(Step reached) {
    if (reached == Step.READ) {
      toRecord = done();
    }
    step = reached;
  }

  synchronized void unreadable(Problem why) {
    refusal = Optional.of(why);
    form = Optional.empty();
    step = Step.UNREADABLE;
  }

  synchronized void add(Line line) {
    counts.merge(line.fate(), 1, Integer::sum);
    boolean isRefused = line.fate() == Fate.REFUSED || line.fate() == Fate.UNSENT;
    if (lines.size() < MOST_SHOWN || (isRefused && refused.size() < RefusedTables.MOST_ROWS)) {
      lines.add(shown(line));
    }
    if (isRefused && refused.size() < RefusedTables.MOST_ROWS) {
      refused.add(
          new RefusedRow(
              line.row().sheet(),
              line.row().row().number(),
              line.row().row().cells(),
              line.problems()));
    }
  }

  private static Shown shown(Line line) {
    Optional<SpecificRecord> fact =
        line.row().result() instanceof ReadResult.Fact read
            ? Optional.of(read.fact())
            : Optional.empty();
    return new Shown(
        line.row().sheet(),
        line.row().row().number(),
        line.fate(),
        fact.map(FactType::of),
        fact.map(one -> List.copyOf(SubjectsNamed.of(one))).orElse(List.of()),
        fact.map(one -> FactType.headerOf(one).getHappenedAt()),
        line.problems());
  }
}
