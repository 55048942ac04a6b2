package org.kornspur.api.resource;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import jakarta.ws.rs.core.StreamingOutput;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.Optional;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;
import org.jboss.logging.Logger;
import org.kornspur.api.border.SeenChanges;
import org.kornspur.api.feed.ChangeHub;
import org.kornspur.api.feed.Positions;

/**
 * One reader of the live stream: changes wait in a bounded queue until the thread of the request
 * has written them, as WHATWG HTML, section 9.2, server-sent events, says.
 */
final class ChangeStream implements ChangeHub.Listener, StreamingOutput {
  private static final Logger LOG = Logger.getLogger(ChangeStream.class);

  /** Holds all that the hub keeps for one who comes back, and as much again. */
  private static final int LONGEST_QUEUE = 20_000;

  private static final long HEARTBEAT_SECONDS = 15;

  /** Then the reader comes back, and says anew who it is. */
  private static final Duration LONGEST = Duration.ofMinutes(15);

  private static final String STILL_HERE = ": still here\n\n";

  /** What waits to be written. */
  private sealed interface Waiting {

    record Change(ChangeHub.Event event) implements Waiting {}

    record Reload() implements Waiting {}
  }

  private final BlockingQueue<Waiting> queue = new LinkedBlockingQueue<>(LONGEST_QUEUE);
  private final ChangeHub hub;
  private final Optional<Positions> lastSeen;
  private final ObjectMapper json;
  private final SeenChanges seen;
  private volatile boolean dropped;

  /**
   * @param lastSeen what the reader heard last; what came after is written first
   */
  ChangeStream(ChangeHub hub, Optional<Positions> lastSeen, ObjectMapper json, SeenChanges seen) {
    this.seen = seen;
    this.hub = hub;
    this.lastSeen = lastSeen;
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

  @Override
  public void write(OutputStream out) throws IOException {
    hub.add(this, lastSeen);
    try {
      send(out, ": Kornspur\n\n");
      long end = System.nanoTime() + LONGEST.toNanos();
      while (!dropped && System.nanoTime() < end) {
        Waiting next = queue.poll(HEARTBEAT_SECONDS, TimeUnit.SECONDS);
        send(out, next == null ? STILL_HERE : event(next));
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    } catch (JsonProcessingException e) {
      LOG.error("A change cannot be written as JSON", e);
    } catch (IOException gone) {
      LOG.debugf(gone, "A reader of the live stream is gone");
    } finally {
      hub.remove(this);
    }
  }

  private static void send(OutputStream out, String text) throws IOException {
    out.write(text.getBytes(StandardCharsets.UTF_8));
    out.flush();
  }

  private String event(Waiting waiting) throws JsonProcessingException {
    if (waiting instanceof Waiting.Change change) {
      Optional<JsonNode> shown = seen.shown(change.event().change(), json);
      return shown.isEmpty()
          ? STILL_HERE
          : "event: standing\nid: "
              + change.event().positions()
              + "\ndata: "
              + json.writeValueAsString(shown.get())
              + "\n\n";
    }
    return "event: reload\ndata: Earlier changes are no longer kept; load the lists anew.\n\n";
  }
}
