package org.kornspur.api.security.visibility;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.net.HttpURLConnection;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.function.Predicate;

/** Listens to the live stream until enough was heard. */
final class ListenFor {
  private static final Duration LONGEST = Duration.ofSeconds(90);

  private ListenFor() {}

  /** What was heard; less than enough where the limit came first. */
  static String enough(
      Predicate<String> isEnough, String url, String authorization, String lastEventId)
      throws IOException {
    HttpURLConnection stream = (HttpURLConnection) URI.create(url).toURL().openConnection();
    stream.setReadTimeout((int) LONGEST.toMillis());
    stream.setRequestProperty("Accept", "text/event-stream");
    stream.setRequestProperty("Authorization", authorization);
    stream.setRequestProperty("Last-Event-ID", lastEventId);
    ByteArrayOutputStream heard = new ByteArrayOutputStream();
    long began = System.nanoTime();
    try (InputStream in = stream.getInputStream()) {
      byte[] buffer = new byte[8192];
      int read = in.read(buffer);
      while (read >= 0) {
        heard.write(buffer, 0, read);
        boolean isOver = System.nanoTime() - began > LONGEST.toNanos();
        read =
            isOver || isEnough.test(heard.toString(StandardCharsets.UTF_8)) ? -1 : in.read(buffer);
      }
    } finally {
      stream.disconnect();
    }
    return heard.toString(StandardCharsets.UTF_8);
  }
}
