package org.kornspur.api.resource;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import jakarta.ws.rs.sse.OutboundSseEvent;
import jakarta.ws.rs.sse.Sse;
import jakarta.ws.rs.sse.SseEventSink;
import java.util.Optional;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import org.jboss.logging.Logger;
import org.kornspur.api.feed.ChangeHub;
import org.kornspur.api.feed.Positions;

/**
 * One reader of the live stream: changes wait in a bounded queue until a thread of its own has
 * written them.
 */
final class ChangeStream implements ChangeHub.Listener {
  private static final Logger LOG = Logger.getLogger(ChangeStream.class);

  /** Holds all that the hub keeps for one who comes back, and as much again. */
  private static final int LONGEST_QUEUE = 20_000;

  private static final long HEARTBEAT_SECONDS = 15;
  private static final long LONGEST_WRITE_SECONDS = 30;

  /** What waits to be written. */
  private sealed interface Waiting {

    record Change(ChangeHub.Event event) implements Waiting {}

    record Reload() implements Waiting {}
  }

  private final BlockingQueue<Waiting> queue = new LinkedBlockingQueue<>(LONGEST_QUEUE);
  private final ChangeHub hub;
  private final SseEventSink sink;
  private final Sse sse;
  private final ObjectMapper json;
  private volatile boolean dropped;

  ChangeStream(ChangeHub hub, SseEventSink sink, Sse sse, ObjectMapper json) {
    this.hub = hub;
    this.sink = sink;
    this.sse = sse;
    this.json = json;
  }

  @Override
  public boolean offer(ChangeHub.Event event) {
    dropped = !queue.offer(new Waiting.Change(event));
    return !dropped;
  }

  @Override
  public void mustReload() {
    dropped = !queue.offer(new Waiting.Reload());
  }

  /**
   * Begins to write; what came after {@code lastSeen} first. The greeting is sent by the thread of
   * the request, so that the head of the answer is out before another thread writes.
   */
  void open(Optional<Positions> lastSeen) {
    OutboundSseEvent greeting = sse.newEventBuilder().comment("Kornspur").build();
    CompletableFuture<?> greeted = sink.send(greeting).toCompletableFuture();
    hub.add(this, lastSeen);
    Thread writer = new Thread(() -> write(greeted), "changes-reader");
    writer.setDaemon(true);
    writer.start();
  }

  private void write(CompletableFuture<?> greeted) {
    try (sink) {
      greeted.get(LONGEST_WRITE_SECONDS, TimeUnit.SECONDS);
      while (!dropped && !sink.isClosed()) {
        Waiting next = queue.poll(HEARTBEAT_SECONDS, TimeUnit.SECONDS);
        send(next == null ? sse.newEventBuilder().comment("still here").build() : event(next));
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    } catch (ExecutionException | TimeoutException | RuntimeException gone) {
      LOG.debugf(gone, "A reader of the live stream is gone or cannot follow");
    } catch (JsonProcessingException e) {
      LOG.error("A change cannot be written as JSON", e);
    } finally {
      hub.remove(this);
    }
  }

  private void send(OutboundSseEvent event)
      throws InterruptedException, ExecutionException, TimeoutException {
    sink.send(event).toCompletableFuture().get(LONGEST_WRITE_SECONDS, TimeUnit.SECONDS);
  }

  private OutboundSseEvent event(Waiting waiting) throws JsonProcessingException {
    if (waiting instanceof Waiting.Change change) {
      return sse.newEventBuilder()
          .name("standing")
          .id(change.event().positions().toString())
          .data(json.writeValueAsString(change.event().change()))
          .build();
    }
    return sse.newEventBuilder()
        .name("reload")
        .data("Earlier changes are no longer kept; load the lists anew.")
        .build();
  }
}
