package org.kornspur.api.rest;

import static org.assertj.core.api.Assertions.assertThat;
import static org.kornspur.api.Waiting.until;

import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.TextNode;
import java.io.IOException;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.time.Duration;
import java.util.Optional;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.TimeUnit;
import java.util.function.Predicate;
import org.junit.jupiter.api.Test;
import org.kornspur.api.readmodel.ChangeHub;
import org.kornspur.api.readmodel.InventedChange;
import org.kornspur.api.readmodel.StandingChange;
import org.kornspur.api.readmodel.TopicPositions;
import org.kornspur.ingest.contract.Subject;

/** What a reader is written who may hear of lot:own and of nothing else. */
class ChangeStreamTest {
  private static final Duration NEVER = Duration.ofHours(1);

  private final ChangeHub hub = new ChangeHub(1000);
  private final StreamReaderLimit places = new StreamReaderLimit(1, 1);
  private final StringBuffer written = new StringBuffer();
  private long offset;

  @Test
  void ofAChangeThatTheReaderMayNotSeeNothingIsWritten() throws Exception {
    Reading reading = read(NEVER, Optional.empty());
    for (int change = 0; change < 200; change++) {
      publish("lot:other");
    }
    publish("lot:own");
    until(() -> written.indexOf("lot:own") >= 0);
    reading.end();

    assertThat(written.toString())
        .isEqualTo(": Kornspur\n\nevent: standing\nid: <0-200>\ndata: \"lot:own\"\n\n");
  }

  @Test
  void theHeartbeatComesHoweverManyHiddenChangesCome() throws Exception {
    Reading reading = read(Duration.ofMillis(500), Optional.empty());
    until(
        () -> {
          publish("lot:other");
          return written.indexOf(": still here\n\n: still here\n\n") >= 0;
        });
    reading.end();

    assertThat(written.toString()).doesNotContain("event:");
  }

  @Test
  void oneWhoComesBackHearsWhatItMissed() throws Exception {
    publish("lot:own");
    publish("lot:other");
    publish("lot:own");
    Reading reading = read(NEVER, TopicPositions.parse("0-0"));
    until(() -> written.indexOf("lot:own") >= 0);
    reading.end();

    assertThat(written.toString()).containsOnlyOnce("lot:own").contains("id: <0-2>");
  }

  @Test
  void aReaderThatIsGoneGivesItsPlaceBackAtOnce() throws Exception {
    Reading reading = read(NEVER, Optional.empty());
    reading.end();

    assertThat(places.take("b")).isNotNull();
    assertThat(hub.listeners()).isZero();
  }

  private record Reading(ChangeStream stream, CompletableFuture<Void> done) {

    void end() throws Exception {
      stream.end();
      done.get(60, TimeUnit.SECONDS);
    }
  }

  private Reading read(Duration heartbeat, Optional<TopicPositions> lastSeen) {
    Predicate<StandingChange> isOwn = change -> change.after().subject().equals(Subject.lot("own"));
    ChangeStream stream =
        new ChangeStream(
            hub,
            new ObjectMapper(),
            new ChangeStream.Reader(
                places.take("a"),
                lastSeen,
                change ->
                    Optional.of(change)
                        .filter(isOwn)
                        .map(own -> TextNode.valueOf(own.after().subject().toString())),
                positions -> "<" + positions + ">",
                heartbeat));
    CompletableFuture<Void> done =
        CompletableFuture.runAsync(
            () -> {
              try {
                stream.write(intoText());
              } catch (IOException e) {
                throw new UncheckedIOException(e);
              }
            });
    until(() -> hub.listeners() == 1);
    return new Reading(stream, done);
  }

  private OutputStream intoText() {
    return new OutputStream() {
      @Override
      public void write(int letter) {
        written.append((char) letter);
      }
    };
  }

  private void publish(String subject) {
    hub.publish(0, offset++, InventedChange.of(subject));
  }
}
