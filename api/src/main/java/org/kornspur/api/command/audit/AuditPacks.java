package org.kornspur.api.command.audit;

import io.netty.util.concurrent.DefaultThreadFactory;
import jakarta.annotation.PreDestroy;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.jboss.logging.Logger;
import org.kornspur.api.kafka.EngineSettings;
import org.kornspur.api.security.Caller;
import org.kornspur.api.storage.PrivateFolder;

/**
 * The packs that people asked for: made in the background, one at a time, in the order in which
 * they were asked for, and kept for a day in a folder that is closed to others. One person has two
 * at most; of a third the oldest that is made is deleted. A pack does not outlive the program.
 */
@ApplicationScoped
public class AuditPacks {
  /** How long a pack is kept after it is made. */
  public static final Duration KEPT = Duration.ofHours(24);

  /** Packs of one person. */
  public static final int MOST_OF_ONE = 2;

  private static final Logger LOG = Logger.getLogger(AuditPacks.class);
  private static final int MOST = 20;

  private final AuditPackMaker maker;
  private final Path folder;
  private final Clock clock;
  private final Map<String, AuditPack> packs = new ConcurrentHashMap<>();
  private final ScheduledExecutorService worker =
      Executors.newSingleThreadScheduledExecutor(new DefaultThreadFactory("audit-packs", true));

  @Inject
  AuditPacks(AuditPackMaker maker, EngineSettings settings) {
    this(maker, settings.dataFolder().resolve("audit-packs"), Clock.systemUTC());
  }

  AuditPacks(AuditPackMaker maker, Path folder, Clock clock) {
    this.maker = maker;
    this.folder = folder;
    this.clock = clock;
    removeLeftovers();
    worker.scheduleWithFixedDelay(this::deleteOld, 10, 10, TimeUnit.MINUTES);
  }

  /** What an earlier run left: nobody knows any more who asked for it. */
  private void removeLeftovers() {
    if (Files.isDirectory(folder)) {
      try (Stream<Path> files = Files.list(folder)) {
        files.forEach(AuditPacks::delete);
      } catch (IOException e) {
        LOG.warnf(e, "Audit packs of an earlier run could not be removed");
      }
    }
  }

  @PreDestroy
  void close() {
    worker.shutdownNow();
    packs.values().forEach(this::forget);
  }

  /**
   * Has a pack made.
   *
   * @return empty where the person, or all together, have too many that are not made yet
   */
  public synchronized Optional<AuditPack> order(AuditOrder order) {
    deleteOld();
    List<AuditPack> own = of(order.caller());
    own.stream()
        .filter(AuditPack::isEnded)
        .limit(Math.max(0, own.size() - MOST_OF_ONE + 1))
        .forEach(this::forget);
    if (of(order.caller()).size() >= MOST_OF_ONE || packs.size() >= MOST) {
      return Optional.empty();
    }
    PrivateFolder.make(folder);
    AuditPack pack = new AuditPack(order, folder, clock.instant());
    packs.put(pack.id(), pack);
    worker.execute(() -> make(pack));
    return Optional.of(pack);
  }

  /** The packs of a person, the oldest first. */
  public List<AuditPack> of(Caller caller) {
    return packs.values().stream()
        .filter(pack -> pack.order().caller().personId().equals(caller.personId()))
        .filter(pack -> !isOld(pack))
        .sorted(Comparator.comparing(AuditPack::askedAt))
        .toList();
  }

  /** A pack that this person asked for and that is still kept. */
  public Optional<AuditPack> of(Caller caller, String id) {
    return of(caller).stream().filter(pack -> pack.id().equals(id)).findFirst();
  }

  private void make(AuditPack pack) {
    pack.begin(clock.instant());
    try (OutputStream out = new BufferedOutputStream(Files.newOutputStream(pack.file()))) {
      maker.make(pack.order(), out, pack::reached);
    } catch (InterruptedException stopping) {
      Thread.currentThread().interrupt();
      fail(pack);
      return;
    } catch (IOException | RuntimeException | OutOfMemoryError fault) {
      LOG.warnf(fault, "The audit pack of %s could not be made", pack.order().caller().personId());
      fail(pack);
      return;
    }
    pack.end(AuditPack.State.READY, clock.instant());
  }

  private void fail(AuditPack pack) {
    delete(pack.file());
    pack.end(AuditPack.State.FAILED, clock.instant());
  }

  private boolean isOld(AuditPack pack) {
    return pack.endedAt().filter(at -> at.plus(KEPT).isBefore(clock.instant())).isPresent();
  }

  void deleteOld() {
    packs.values().stream().filter(this::isOld).toList().forEach(this::forget);
  }

  private void forget(AuditPack pack) {
    packs.remove(pack.id());
    delete(pack.file());
  }

  private static void delete(Path file) {
    try {
      Files.deleteIfExists(file);
    } catch (IOException e) {
      LOG.warnf("%s could not be deleted: %s", file, e);
    }
  }
}
