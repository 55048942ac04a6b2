package org.kornspur.api.command.audit;

import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.Optional;
import java.util.UUID;

/** A pack and how far it is. Many threads read it while one makes it. */
public final class AuditPack {
  private final String id = UUID.randomUUID().toString();
  private final AuditOrder order;
  private final Path file;
  private final Instant askedAt;

  private State state = State.WAITING;
  private AuditPackMaker.Part part = AuditPackMaker.Part.SHEETS;
  private int done;
  private int all;
  private Instant begunAt;
  private Instant endedAt;

  /** Whether it is there. */
  public enum State {
    WAITING,
    MAKING,
    READY,
    FAILED
  }

  AuditPack(AuditOrder order, Path folder, Instant askedAt) {
    this.order = order;
    this.file = folder.resolve(id + ".zip");
    this.askedAt = askedAt;
  }

  public String id() {
    return id;
  }

  public AuditOrder order() {
    return order;
  }

  /** Where it lies once it is ready. */
  public Path file() {
    return file;
  }

  public Instant askedAt() {
    return askedAt;
  }

  public synchronized State state() {
    return state;
  }

  public boolean isEnded() {
    State now = state();
    return now == State.READY || now == State.FAILED;
  }

  /** What is being made. */
  public synchronized AuditPackMaker.Part part() {
    return part;
  }

  /** How many pieces of that part are done. */
  public synchronized int done() {
    return done;
  }

  /** How many pieces that part has. */
  public synchronized int all() {
    return all;
  }

  /** How long it took to make; empty until it has ended. */
  public synchronized Optional<Duration> took() {
    return Optional.ofNullable(endedAt).map(end -> Duration.between(begunAt, end));
  }

  /** When it ended; empty until it has. */
  public synchronized Optional<Instant> endedAt() {
    return Optional.ofNullable(endedAt);
  }

  synchronized void begin(Instant at) {
    state = State.MAKING;
    begunAt = at;
  }

  synchronized void reached(AuditPackMaker.Part what, int pieces, int ofPieces) {
    part = what;
    done = pieces;
    all = ofPieces;
  }

  synchronized void end(State reached, Instant at) {
    state = reached;
    endedAt = at;
  }
}
