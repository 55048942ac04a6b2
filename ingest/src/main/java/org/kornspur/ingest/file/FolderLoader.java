package org.kornspur.ingest.file;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileVisitResult;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.SimpleFileVisitor;
import java.nio.file.attribute.BasicFileAttributes;
import java.time.Clock;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.kornspur.contract.QuarantineOrigin;
import org.kornspur.ingest.intake.FactSink;
import org.kornspur.ingest.intake.Problem;
import org.kornspur.ingest.intake.QuarantineEntries;
import org.kornspur.ingest.intake.ReceiptCheck;
import org.kornspur.ingest.json.ReadResult;
import org.kornspur.ingest.problem.FileProblem;
import org.kornspur.ingest.problem.Given;
import org.kornspur.ingest.sheet.UnreadableTable;

/**
 * Reads a folder of fact files, and the folders within it, in the order of their names, and hands
 * every input on: a fact, or a refusal.
 *
 * <p>Nothing outside the folder is read: symbolic links are never followed. Hidden files and notes
 * ({@code .md}) are passed over; any other file that is of no {@link FileFormat} is refused whole,
 * and stands in the report alone. Reading the same folder again is harmless: facts keep their ids.
 */
public final class FolderLoader {

  /** What the report shows of an original. */
  private static final int SHOWN_CHARACTERS = 1000;

  private final List<TableWords> languages;
  private final RefusedTables refusedTables;
  private final Clock clock;
  private final FactSink sink;
  private final LoadProgress progress;
  private final LoadReport.Gathering gathering = new LoadReport.Gathering();
  private long accepted;
  private long refused;

  private FolderLoader(
      List<TableWords> languages,
      RefusedTables refusedTables,
      Clock clock,
      FactSink sink,
      LoadProgress progress) {
    this.languages = languages;
    this.refusedTables = refusedTables;
    this.clock = clock;
    this.sink = sink;
    this.progress = progress;
  }

  /**
   * Reads a folder, or a single file; tables have the words of the contract.
   *
   * @throws IOException as {@link #load(Path, List, RefusedTables, Clock, FactSink, LoadProgress)}
   *     does
   */
  public static LoadReport load(Path folder, Clock clock, FactSink sink, LoadProgress progress)
      throws IOException {
    return load(folder, List.of(), RefusedTables.NOWHERE, clock, sink, progress);
  }

  /**
   * Reads a folder, or a single file.
   *
   * @param languages whose words tables may have, besides those of the contract
   * @param refusedTables takes the refused rows of tables as people make them
   * @param clock gives the time of receipt of what is refused
   * @param sink what it throws ends the load and is passed on
   * @throws IOException if the folder cannot be walked; a file that cannot be read is a refusal
   */
  public static LoadReport load(
      Path folder,
      List<TableWords> languages,
      RefusedTables refusedTables,
      Clock clock,
      FactSink sink,
      LoadProgress progress)
      throws IOException {
    FolderLoader load = new FolderLoader(languages, refusedTables, clock, sink, progress);
    load.readAll(folder.toRealPath());
    return load.gathering.report();
  }

  private void readAll(Path root) throws IOException {
    Path base = Files.isDirectory(root) ? root : root.getParent();
    List<Path> files = filesIn(root);
    int number = 0;
    for (Path file : files) {
      number++;
      String name = nameOf(base.relativize(file));
      progress.begins(name, number, files.size());
      read(file, name);
    }
  }

  private static List<Path> filesIn(Path root) throws IOException {
    List<Path> files = new ArrayList<>();
    Files.walkFileTree(
        root,
        new SimpleFileVisitor<>() {
          @Override
          public FileVisitResult preVisitDirectory(Path folder, BasicFileAttributes attributes) {
            boolean hidden = !folder.equals(root) && isHidden(folder);
            return hidden ? FileVisitResult.SKIP_SUBTREE : FileVisitResult.CONTINUE;
          }

          @Override
          public FileVisitResult visitFile(Path file, BasicFileAttributes attributes) {
            files.add(file);
            return FileVisitResult.CONTINUE;
          }

          @Override
          public FileVisitResult visitFileFailed(Path file, IOException fault) throws IOException {
            if (file.equals(root)) {
              throw fault;
            }
            files.add(file);
            return FileVisitResult.CONTINUE;
          }
        });
    files.sort(Comparator.comparing(file -> root.relativize(file).toString()));
    return files;
  }

  private void read(Path file, String name) {
    if (isHidden(file) || name.toLowerCase(Locale.ROOT).endsWith(".md")) {
      gathering.passedOver(name);
      return;
    }
    if (Files.isSymbolicLink(file)) {
      refuseFile(name, new Given.SymbolicLink(), new FileProblem.SymbolicLink());
      return;
    }
    Optional<FileFormat> format = FileFormat.of(name);
    if (format.isEmpty() || !Files.isRegularFile(file, LinkOption.NOFOLLOW_LINKS)) {
      refuseFile(name, new Given.OtherFile(), new FileProblem.OtherKind());
      return;
    }
    try {
      gathering.file();
      format.get().read(file, languages, inputsOf(name));
    } catch (UnreadableTable whole) {
      refuseFile(name, whole.problem());
    } catch (IOException e) {
      refuseFile(
          name,
          new Given.UnreadableFile(Problem.described(e.toString())),
          new FileProblem.Unreadable());
    }
  }

  private FileInputs inputsOf(String name) {
    return new FileInputs() {
      @Override
      public List<Problem> take(FileInput input) {
        return FolderLoader.this.take(name, input);
      }

      @Override
      public void takeRefused(DetectedTable form, List<RefusedRow> rows) throws IOException {
        refusedTables.take(name, form, rows);
      }
    };
  }

  private List<Problem> take(String name, FileInput input) {
    ReadResult result = heldAgainstReceipt(input.result());
    if (result instanceof ReadResult.Fact read) {
      sink.accept(read.fact());
      gathering.accepted();
      accepted++;
    } else if (result instanceof ReadResult.Refused refusal) {
      sink.refuse(
          QuarantineEntries.held(
              QuarantineOrigin.FILE,
              name + ":" + input.line(),
              clock.instant(),
              refusal.problems(),
              null,
              input.original()));
      gathering.refused(
          new LoadReportLine(name, input.line(), refusal.problems(), shown(input.original())));
      refused++;
    }
    progress.took(accepted, refused);
    return result instanceof ReadResult.Refused refusal ? refusal.problems() : List.of();
  }

  private ReadResult heldAgainstReceipt(ReadResult result) {
    if (result instanceof ReadResult.Fact read) {
      List<Problem> problems = ReceiptCheck.check(read.fact(), clock.instant());
      return problems.isEmpty() ? result : new ReadResult.Refused(problems);
    }
    return result;
  }

  private void refuseFile(String name, Given given, FileProblem reason) {
    refuseFile(name, Problem.of("", given, reason));
  }

  private void refuseFile(String name, Problem problem) {
    gathering.refused(new LoadReportLine(name, 0, List.of(problem), ""));
    refused++;
  }

  private static String shown(byte[] original) {
    return Problem.described(new String(original, StandardCharsets.UTF_8), SHOWN_CHARACTERS);
  }

  private static boolean isHidden(Path file) {
    return file.getFileName().toString().startsWith(".");
  }

  private static String nameOf(Path relative) {
    return Problem.described(relative.toString().replace('\\', '/'), SHOWN_CHARACTERS);
  }
}
