package org.kornspur.api.rest;

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
import java.util.function.Function;
import org.jboss.logging.Logger;
import org.kornspur.api.readmodel.ChangeHub;
import org.kornspur.api.readmodel.StandingChange;
import org.kornspur.api.readmodel.TopicPositions;

/**
 * One reader of the live stream: changes wait in a bounded queue until the thread of the request
 * has written them, as WHATWG HTML, section 9.2, server-sent events, says.
 *
 * <p>Of a change that the reader may not see nothing is written and nothing moves, the heartbeat
 * neither: else its count and time would show.
 */
final class ChangeStream implements ChangeHub.Listener, StreamingOutput {
  private static final Logger LOG = Logger.getLogger(ChangeStream.class);

  /** Holds all that the hub keeps for one who comes back, and as much again. */
  private static final int LONGEST_QUEUE = 20_000;

  /** Then the reader comes back, and says again who it is. */
  private static final Duration LONGEST = Duration.ofMinutes(15);

  private static final String STILL_HERE = ": still here\n\n";

  private static final String RELOAD =
      "event: reload\ndata: Earlier changes are no longer kept; load the lists again.\n\n";

  /** What waits to be written. */
  private interface Waiting {

    /** Empty where there is nothing for this reader. */
    Optional<String> text() throws JsonProcessingException;
  }

  /**
   * Who reads.
   *
   * @param lastSeen what was heard last; what came after is written first
   * @param shown a change as it may be told; empty where it may not
   * @param mark how a place in the topic is told
   * @param heartbeat after how long a silence the stream says that it is still there
   */
  record Reader(
      StreamReaderLimit.Place place,
      Optional<TopicPositions> lastSeen,
      Function<StandingChange, Optional<JsonNode>> shown,
      Function<TopicPositions, String> mark,
      Duration heartbeat) {}

  private final BlockingQueue<Waiting> queue = new LinkedBlockingQueue<>(LONGEST_QUEUE);
  private final ChangeHub hub;
  private final ObjectMapper json;
  private final Reader reader;
  private volatile boolean dropped;

  ChangeStream(ChangeHub hub, ObjectMapper json, Reader reader) {
    this.hub = hub;
    this.json = json;
    this.reader = reader;
  }

  @Override
  public boolean offer(ChangeHub.Event event) {
    return putOrDrop(() -> text(event));
  }

  @Override
  public void mustReload() {
    putOrDrop(() -> Optional.of(RELOAD));
  }

  /** Frees its place and thread before the next heartbeat finds out that the reader is gone. */
  @Override
  public void end() {
    dropped = true;
    putOrDrop(Optional::empty);
    reader.place().leaveUnused();
  }

  private boolean putOrDrop(Waiting waiting) {
    if (!queue.offer(waiting)) {
      dropped = true;
    }
    return !dropped;
  }

  @Override
  public void write(OutputStream out) throws IOException {
    if (!reader.place().use()) {
      return;
    }
    try {
      hub.add(this, reader.lastSeen());
      send(out, ": Kornspur\n\n");
      writeChanges(out);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    } catch (JsonProcessingException e) {
      LOG.error("A change cannot be written as JSON", e);
    } catch (IOException gone) {
      LOG.debugf(gone, "A reader of the live stream is gone");
    } finally {
      hub.remove(this);
      reader.place().leave();
    }
  }

  private void writeChanges(OutputStream out) throws IOException, InterruptedException {
    long began = System.nanoTime();
    long lastWritten = began;
    while (!dropped && System.nanoTime() - began < LONGEST.toNanos()) {
      long silence = System.nanoTime() - lastWritten;
      long left = reader.heartbeat().toNanos() - silence;
      Optional<String> text = left <= 0 ? Optional.of(STILL_HERE) : next(left);
      if (text.isPresent()) {
        send(out, text.get());
        lastWritten = System.nanoTime();
      }
    }
  }

  /** Empty where nothing came, or nothing for this reader. */
  private Optional<String> next(long nanos) throws IOException, InterruptedException {
    Waiting waiting = queue.poll(nanos, TimeUnit.NANOSECONDS);
    return waiting == null ? Optional.empty() : waiting.text();
  }

  private Optional<String> text(ChangeHub.Event event) throws JsonProcessingException {
    Optional<JsonNode> shown = reader.shown().apply(event.change());
    return shown.isEmpty()
        ? Optional.empty()
        : Optional.of(
            "event: standing\nid: "
                + reader.mark().apply(event.positions())
                + "\ndata: "
                + json.writeValueAsString(shown.get())
                + "\n\n");
  }

  private static void send(OutputStream out, String text) throws IOException {
    out.write(text.getBytes(StandardCharsets.UTF_8));
    out.flush();
  }
}
