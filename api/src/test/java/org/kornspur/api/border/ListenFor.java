package org.kornspur.api.border;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.net.HttpURLConnection;
import java.net.SocketTimeoutException;
import java.net.URI;
import java.nio.charset.StandardCharsets;

/** Listens to the live stream for a while. */
final class ListenFor {

  private ListenFor() {}

  static String seconds(int seconds, String url, String authorization, String lastEventId)
      throws IOException {
    HttpURLConnection stream = (HttpURLConnection) URI.create(url).toURL().openConnection();
    stream.setReadTimeout(seconds * 1000);
    stream.setRequestProperty("Accept", "text/event-stream");
    stream.setRequestProperty("Authorization", authorization);
    stream.setRequestProperty("Last-Event-ID", lastEventId);
    ByteArrayOutputStream heard = new ByteArrayOutputStream();
    long end = System.nanoTime() + seconds * 1_000_000_000L;
    try (InputStream in = stream.getInputStream()) {
      byte[] buffer = new byte[8192];
      for (int read = in.read(buffer);
          read >= 0 && System.nanoTime() < end;
          read = in.read(buffer)) {
        heard.write(buffer, 0, read);
      }
    } catch (SocketTimeoutException quiet) {
      // nothing more came
    } finally {
      stream.disconnect();
    }
    return heard.toString(StandardCharsets.UTF_8);
  }
}
