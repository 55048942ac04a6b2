package org.kornspur.api.rest;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.InputStream;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.atomic.AtomicReference;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.kornspur.api.EmptyMachine;
import org.kornspur.api.Waiting;
import org.kornspur.api.security.people.TestPeople;

/** How many readers of the live stream one person may have, over HTTP. */
@ExtendWith(EmptyMachine.class)
class StreamReadersIT {
  private static final int MOST = 10;

  private final URI changes = URI.create(EmptyMachine.root() + "api/v1/changes");

  private final HttpClient http =
      HttpClient.newBuilder().version(HttpClient.Version.HTTP_1_1).build();

  @Test
  void onePersonHasTenAndAnotherIsStillLetIn() throws Exception {
    List<InputStream> open = new ArrayList<>();
    try {
      for (int reader = 0; reader < MOST; reader++) {
        open.add(untilLetIn("inspector"));
      }
      HttpResponse<InputStream> more = ask("GET", "inspector");
      try (InputStream body = more.body()) {
        assertThat(more.statusCode()).isEqualTo(503);
        assertThat(more.headers().firstValue("Retry-After")).isPresent();
        assertThat(new String(body.readAllBytes(), StandardCharsets.UTF_8))
            .contains("10 times at once");
      }
      open.add(untilLetIn("auditor"));
      open.remove(0).close();
      open.add(untilLetIn("inspector"));
    } finally {
      for (InputStream stream : open) {
        stream.close();
      }
    }
  }

  @Test
  void whoAsksForHeadsOnlyTakesNoPlace() throws Exception {
    for (int time = 0; time < 3 * MOST; time++) {
      ask("HEAD", "quality").body().close();
    }
    untilLetIn("quality").close();
  }

  /** A place is free again once the server has noticed that its reader is gone. */
  private InputStream untilLetIn(String person) throws Exception {
    AtomicReference<InputStream> letIn = new AtomicReference<>();
    Waiting.until(
        () -> {
          HttpResponse<InputStream> answer = ask("GET", person);
          if (answer.statusCode() == 200) {
            letIn.set(answer.body());
          } else {
            answer.body().close();
          }
          return letIn.get() != null;
        });
    return letIn.get();
  }

  private HttpResponse<InputStream> ask(String method, String person) throws Exception {
    return http.send(
        HttpRequest.newBuilder(changes)
            .header("Authorization", TestPeople.basic(person))
            .method(method, HttpRequest.BodyPublishers.noBody())
            .build(),
        HttpResponse.BodyHandlers.ofInputStream());
  }
}
