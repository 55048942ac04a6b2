package org.kornspur.api.command.table;

import io.netty.util.concurrent.DefaultThreadFactory;
import jakarta.annotation.PreDestroy;
import jakarta.enterprise.context.ApplicationScoped;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.stream.Stream;
import org.jboss.logging.Logger;
import org.kornspur.api.command.fact.TableIntake;
import org.kornspur.api.command.table.SentTable.Step;
import org.kornspur.api.kafka.EngineSettings;
import org.kornspur.api.security.Caller;
import org.kornspur.api.storage.PrivateFolder;
import org.kornspur.api.text.TableTexts;
import org.kornspur.ingest.file.FactTable;
import org.kornspur.ingest.file.TableReadingOptions;
import org.kornspur.ingest.intake.Problem;
import org.kornspur.ingest.problem.Given;
import org.kornspur.ingest.problem.WorkbookProblem;
import org.kornspur.ingest.sheet.UnreadableTable;

/**
 * The tables that people are looking at, each in a file of a folder that is closed to others, for
 * half an hour at most. One person has two at most; of a third the first is forgotten.
 */
@ApplicationScoped
public class SentTables {
  private static final Logger LOG = Logger.getLogger(SentTables.class);
  private static final Duration KEPT = Duration.ofMinutes(30);
  private static final int MOST_OF_ONE = 2;
  private static final int MOST = 40;
  private static final int AT_ONCE = 2;

  private final TableIntake intake;
  private final RememberedColumns columns;
  private final FieldLocationHint ground;
  private final Path folder;
  private final Clock clock = Clock.systemUTC();
  private final Map<String, SentTable> tables = new ConcurrentHashMap<>();
  private final ExecutorService workers =
      Executors.newFixedThreadPool(AT_ONCE, new DefaultThreadFactory("sent-tables", true));

  SentTables(
      TableIntake intake,
      RememberedColumns columns,
      FieldLocationHint ground,
      EngineSettings settings) {
    this.intake = intake;
    this.columns = columns;
    this.ground = ground;
    this.folder = settings.dataFolder().resolve("sent-tables");
    removeLeftovers();
  }

  /** What a run left that was ended at once; nobody is looking at it any more. */
  private void removeLeftovers() {
    if (Files.isDirectory(folder)) {
      try (Stream<Path> files = Files.list(folder)) {
        for (Path file : files.toList()) {
          Files.deleteIfExists(file);
        }
      } catch (IOException e) {
        LOG.warnf(e, "Tables that were sent to an earlier run could not be removed");
      }
    }
  }

  @PreDestroy
  void close() {
    workers.shutdownNow();
    tables.values().forEach(this::forget);
  }

  /** Keeps a table and begins to read it. */
  public SentTable take(Caller caller, String fileName, byte[] content, TableChoices choices)
      throws IOException {
    forgetOld(caller);
    PrivateFolder.make(folder);
    Path file = Files.createTempFile(folder, "table", null);
    Files.write(file, content);
    SentTable table = new SentTable(caller, file, fileName, clock.instant());
    tables.put(table.id(), table);
    if (table.begin(Step.READING, choices)) {
      work(table, () -> intake.look(openAsBefore(table), caller, table::add), Step.READ);
    }
    return table;
  }

  /** A table that this person sent and that is still kept. */
  public Optional<SentTable> of(Caller caller, String id) {
    return Optional.ofNullable(tables.get(id))
        .filter(table -> table.caller().personId().equals(caller.personId()))
        .filter(table -> !isOld(table));
  }

  /** Reads a table anew, as the person said. */
  public void look(SentTable table, TableChoices choices) {
    if (table.begin(Step.READING, choices)) {
      work(table, () -> intake.look(open(table), table.caller(), table::add), Step.READ);
    }
  }

  /** Records what can be recorded. */
  public void record(SentTable table) {
    if (table.begin(Step.RECORDING, table.choices())) {
      table.form().ifPresent(form -> columns.keep(table.caller(), form, table.choices().columns()));
      work(table, () -> intake.record(open(table), table.caller(), table::add), Step.RECORDED);
    }
  }

  private interface Work {
    void run() throws IOException, UnreadableTable;
  }

  private void work(SentTable table, Work work, Step reached) {
    workers.execute(
        () -> {
          try {
            work.run();
            table.ended(reached);
          } catch (UnreadableTable refused) {
            table.unreadable(refused.problem());
          } catch (IOException | RuntimeException fault) {
            LOG.warnf(fault, "A table that %s sent could not be read", table.caller().personId());
            table.unreadable(
                Problem.of(
                    "", new Given.SentFile(table.fileName()), new WorkbookProblem.Damaged()));
          }
        });
  }

  /** With what was said before of columns that are of no field. */
  private FactTable openAsBefore(SentTable sent) throws IOException, UnreadableTable {
    FactTable table = open(sent);
    Map<String, String> known = columns.of(sent.caller(), table.form());
    if (known.isEmpty()) {
      return table;
    }
    sent.remembers(known);
    return open(sent);
  }

  private FactTable open(SentTable sent) throws IOException, UnreadableTable {
    Caller caller = sent.caller();
    TableChoices choices = sent.choices();
    FactTable table =
        FactTable.open(
            sent.file(),
            sent.fileName(),
            new TableReadingOptions(
                TableTexts.all(),
                ZoneId.systemDefault(),
                choices.kind(),
                choices.columns(),
                choices.decimalMark(),
                choices.dayOrder(),
                caller.personId(),
                sent.sentAt(),
                caller.enterpriseId().orElse(""),
                ground.place()));
    sent.told(table.form());
    return table;
  }

  private boolean isOld(SentTable table) {
    return table.step() != Step.RECORDING && table.sentAt().plus(KEPT).isBefore(clock.instant());
  }

  private void forgetOld(Caller caller) {
    List<SentTable> oldestFirst = new ArrayList<>(tables.values());
    oldestFirst.sort(Comparator.comparing(SentTable::sentAt));
    oldestFirst.stream().filter(this::isOld).forEach(this::forget);
    List<SentTable> own =
        oldestFirst.stream()
            .filter(table -> table.caller().personId().equals(caller.personId()))
            .filter(table -> table.step() != Step.RECORDING)
            .toList();
    own.stream().limit(Math.max(0, own.size() - MOST_OF_ONE + 1)).forEach(this::forget);
    oldestFirst.stream()
        .filter(table -> table.step() != Step.RECORDING)
        .limit(Math.max(0, tables.size() - MOST + 1))
        .forEach(this::forget);
  }

  private void forget(SentTable table) {
    tables.remove(table.id());
    try {
      Files.deleteIfExists(table.file());
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
