package org.kornspur.api.kafka;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.time.Instant;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.time.temporal.ChronoUnit;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.concurrent.locks.ReentrantLock;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.apache.kafka.common.TopicPartition;
import org.jboss.logging.Logger;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.problem.BackupDetail;
import org.kornspur.api.problem.ProblemKind;
import org.kornspur.api.storage.PrivateFolder;

/**
 * Copies the data folder of a running site, so that the copy can be started as it is.
 *
 * <p>The processors are stopped meanwhile, for their output, their state and how far they read must
 * be of one moment. Facts and whatever else comes from outside goes on, and is copied after what
 * speaks of it; where a file is cut off at its end, the broker cuts off the half record when it
 * starts, as after a power cut. The local state of the processors and of the lists is left out:
 * they restore it from the broker.
 */
public final class Backup {
  private static final Logger LOG = Logger.getLogger(Backup.class);
  private static final String BROKER = "broker";
  private static final int ATTEMPTS = 3;
  private static final List<String> LEFT_OUT =
      List.of("streams", "read-model", "in-use.lock", ".lock");
  private static final DateTimeFormatter NAME =
      DateTimeFormatter.ofPattern("'kornspur-'yyyyMMdd'T'HHmmss'Z'").withZone(ZoneOffset.UTC);
  private static final ReentrantLock ONE_AT_A_TIME = new ReentrantLock();

  /** What comes from outside, and what that speaks of. */
  private static final Pattern FROM_OUTSIDE = Pattern.compile("kornspur\\.(facts|quarantine)-\\d+");

  private static final Pattern SPOKEN_OF = Pattern.compile("kornspur\\.(schemas|people)-\\d+");

  private final Path from;
  private final Path to;

  private Backup(Path from, Path to) {
    this.from = from;
    this.to = to;
  }

  /**
   * What was made.
   *
   * @param folder that can be used as data folder
   * @param bytes of all files in it
   */
  public record Made(Path folder, Instant madeAt, long bytes) {}

  static Made make(EngineSettings settings, RunningProcessors processors) throws Exception {
    Path from = settings.dataFolder().toAbsolutePath().normalize();
    Path into = folder(settings, from);
    if (!ONE_AT_A_TIME.tryLock()) {
      throw refused(new BackupDetail.AnotherRuns());
    }
    try {
      Instant madeAt = Instant.now().truncatedTo(ChronoUnit.SECONDS);
      Path whole = into.resolve(NAME.format(madeAt));
      Path draft = into.resolve(NAME.format(madeAt) + ".unfinished");
      PrivateFolder.makeNew(draft); // the signing key is in it
      Backup backup = new Backup(from, draft);
      long bytes;
      try {
        bytes = processors.whileStopped(backup::copy);
      } catch (Exception failed) {
        backup.empty();
        Files.delete(draft);
        throw failed;
      }
      Files.move(draft, whole, StandardCopyOption.ATOMIC_MOVE);
      LOG.infof("Backup %s made: %d bytes", whole, bytes);
      return new Made(whole, madeAt, bytes);
    } finally {
      ONE_AT_A_TIME.unlock();
    }
  }

  static ApiProblem refused(BackupDetail detail) {
    return new ApiProblem(ProblemKind.BACKUP_REFUSED, detail);
  }

  private static Path folder(EngineSettings settings, Path from) {
    if (settings.bootstrapServers().isPresent()) {
      throw refused(new BackupDetail.ClusterSite());
    }
    Path into =
        settings
            .backupFolder()
            .orElseThrow(() -> refused(new BackupDetail.NoFolder()))
            .toAbsolutePath()
            .normalize();
    if (into.startsWith(from)) {
      throw refused(new BackupDetail.WithinDataFolder());
    }
    return into;
  }

  /** Copies again where the broker put other files in place, or a processor wrote after all. */
  private long copy(IdleDetection quiet) throws Exception {
    for (int attempt = 0; attempt < ATTEMPTS; attempt++) {
      Map<TopicPartition, Long> ends = quiet.await();
      try {
        List<Path> files = files();
        long bytes = 0;
        for (Path file : files) {
          bytes += copy(file);
        }
        if (files.equals(files()) && ends.equals(quiet.ends())) {
          return bytes;
        }
      } catch (NoSuchFileException | UncheckedIOException replaced) {
        LOG.debugf("%s was replaced while it was copied", replaced.getMessage());
      }
      empty();
    }
    throw refused(new BackupDetail.FilesChanged(ATTEMPTS));
  }

  private long copy(Path file) throws IOException {
    Path source = from.resolve(file);
    Path target = to.resolve(file);
    Files.createDirectories(target.getParent());
    Files.copy(source, target, StandardCopyOption.COPY_ATTRIBUTES);
    return Files.size(target);
  }

  /** All files, by their paths in the folder, in the order in which they are copied. */
  private List<Path> files() throws IOException {
    try (Stream<Path> all = Files.walk(from)) {
      return all.filter(Files::isRegularFile)
          .map(from::relativize)
          .filter(path -> !LEFT_OUT.contains(path.getName(0).toString()))
          .filter(path -> !LEFT_OUT.contains(path.getFileName().toString()))
          .sorted(Comparator.comparingInt(Backup::rank).thenComparing(Comparator.reverseOrder()))
          .toList();
    }
  }

  /**
   * The broker's notes of how far its files are good go first, what others write goes last: facts,
   * what was refused, then schemas and names. Of the people, the journal goes after the file.
   */
  private static int rank(Path path) {
    if (!path.startsWith(BROKER)) {
      return 4;
    }
    if (path.getNameCount() == 2) {
      return 0;
    }
    String partition = path.getName(1).toString();
    if (SPOKEN_OF.matcher(partition).matches()) {
      return 3;
    }
    return FROM_OUTSIDE.matcher(partition).matches() ? 2 : 1;
  }

  private void empty() throws IOException {
    try (Stream<Path> all = Files.walk(to)) {
      for (Path path : all.sorted(Comparator.reverseOrder()).toList()) {
        if (!path.equals(to)) {
          Files.delete(path);
        }
      }
    }
  }
}
