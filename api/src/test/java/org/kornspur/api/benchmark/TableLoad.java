package org.kornspur.api.benchmark;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpRequest.BodyPublishers;
import java.net.http.HttpResponse;
import java.net.http.HttpResponse.BodyHandlers;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.Base64;
import java.util.List;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.dhatim.fastexcel.Workbook;
import org.dhatim.fastexcel.Worksheet;

/**
 * Sends invented harvests to a running server as a table, as a person does on the page of files,
 * and measures how long the preview and the recording take.
 *
 * <p>Start the packaged server with {@code -Xmx1g -Dkornspur.requests-per-minute=1000000}, then,
 * from the root:
 *
 * <pre>{@code
 * mvn -q -pl api -am test-compile dependency:build-classpath -Dmdep.outputFile=target/benchmark.cp
 * java -cp "api/target/test-classes:api/target/classes:$(cat api/target/benchmark.cp)" \
 *     org.kornspur.api.benchmark.TableLoad http://127.0.0.1:8080 quality PASSWORD 100000 csv one
 * }</pre>
 *
 * <p>The number is how many rows to send, then follow the format, {@code csv} or {@code xlsx}, and
 * a word that makes the lots other ones than those of the run before.
 */
public final class TableLoad {
  private static final int LOTS_OF_ONE_CROP = 20;
  private static final Duration BETWEEN_LOOKS = Duration.ofMillis(500);
  private static final Pattern COUNT =
      Pattern.compile("id=\"count-(\\w+)\"><a[^>]*>[^<]*?: ([\\d.,\\u00a0\\u202f]+)</a>");
  private static final List<String> HEADER =
      List.of("happenedAt", "sourceDocument", "cropId", "lotId", "massKg");

  private final HttpClient client = HttpClient.newHttpClient();
  private final URI server;
  private final String authorization;

  private TableLoad(URI server, String personId, String password) {
    this.server = server;
    authorization =
        "Basic "
            + Base64.getEncoder()
                .encodeToString((personId + ":" + password).getBytes(StandardCharsets.UTF_8));
  }

  public static void main(String[] arguments) throws Exception {
    if (arguments.length != 6) {
      System.err.println("Give: server address, person, password, number of rows, csv|xlsx, word");
      System.exit(2);
    }
    TableLoad load = new TableLoad(URI.create(arguments[0]), arguments[1], arguments[2]);
    int rows = Integer.parseInt(arguments[3]);
    boolean isText = arguments[4].equals("csv");
    byte[] table = isText ? text(rows, arguments[5]) : workbook(rows, arguments[5]);
    System.out.printf(Locale.ROOT, "%d rows, %s, %d bytes%n", rows, arguments[4], table.length);
    load.send("Harvest-" + arguments[5] + "." + arguments[4], table);
  }

  private void send(String name, byte[] table) throws IOException, InterruptedException {
    long began = System.nanoTime();
    HttpResponse<String> sent = client.send(upload(name, table), BodyHandlers.ofString());
    String address = sent.headers().firstValue("Location").orElseThrow(() -> failed(sent));
    report("sent", began, "");
    report("preview", began, awaited(address));
    long confirmed = System.nanoTime();
    client.send(
        request(address)
            .header("Content-Type", "application/x-www-form-urlencoded")
            .POST(BodyPublishers.ofString("record=true"))
            .build(),
        BodyHandlers.discarding());
    report("recorded", confirmed, awaited(address));
    report("both", began, "");
  }

  private static IllegalStateException failed(HttpResponse<String> answer) {
    return new IllegalStateException("Answered with " + answer.statusCode() + answer.body());
  }

  private static void report(String what, long since, String counts) {
    System.out.printf(
        Locale.ROOT, "%-10s %7.1f s %s%n", what, (System.nanoTime() - since) / 1e9, counts);
  }

  private HttpRequest upload(String name, byte[] table) throws IOException {
    ByteArrayOutputStream body = new ByteArrayOutputStream();
    body.write(
        ("--part\r\nContent-Disposition: form-data; name=\"file\"; filename=\""
                + name
                + "\"\r\nContent-Type: application/octet-stream\r\n\r\n")
            .getBytes(StandardCharsets.UTF_8));
    body.write(table);
    body.write("\r\n--part--\r\n".getBytes(StandardCharsets.UTF_8));
    return request("/files")
        .header("Content-Type", "multipart/form-data; boundary=part")
        .POST(BodyPublishers.ofByteArray(body.toByteArray()))
        .build();
  }

  /** The counts of the page once nobody goes through the rows any more. */
  private String awaited(String address) throws IOException, InterruptedException {
    while (true) {
      HttpResponse<String> page = client.send(request(address).build(), BodyHandlers.ofString());
      if (page.statusCode() != 200) {
        throw failed(page);
      }
      if (!page.body().contains("id=\"working\"")) {
        StringBuilder counts = new StringBuilder();
        Matcher count = COUNT.matcher(page.body());
        while (count.find()) {
          counts.append(count.group(1)).append(' ').append(count.group(2)).append("  ");
        }
        return counts.toString();
      }
      Thread.sleep(BETWEEN_LOOKS.toMillis());
    }
  }

  private HttpRequest.Builder request(String address) {
    return HttpRequest.newBuilder(server.resolve(address))
        .timeout(Duration.ofMinutes(2))
        .header("Accept", "text/html")
        .header("Accept-Language", "en")
        .header("Authorization", authorization);
  }

  private static List<String> row(int number, String word) {
    return List.of(
        "2025-08-%02dT%02d:00:00Z".formatted(1 + number % 28, 6 + number % 12),
        "ticket " + number,
        "LOAD-" + word + "-C" + number / LOTS_OF_ONE_CROP,
        "LOAD-" + word + "-" + number);
  }

  private static double massKg(int number) {
    return 1_000 + number % 5_000 + 0.5;
  }

  private static byte[] text(int rows, String word) {
    StringBuilder text = new StringBuilder(String.join(";", HEADER)).append('\n');
    for (int number = 0; number < rows; number++) {
      text.append(String.join(";", row(number, word))).append(';').append(massKg(number));
      text.append('\n');
    }
    return text.toString().getBytes(StandardCharsets.UTF_8);
  }

  private static byte[] workbook(int rows, String word) throws IOException {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    try (Workbook workbook = new Workbook(out, "Kornspur", "1.0")) {
      Worksheet sheet = workbook.newWorksheet("Harvest");
      for (int column = 0; column < HEADER.size(); column++) {
        sheet.value(0, column, HEADER.get(column));
      }
      for (int number = 0; number < rows; number++) {
        List<String> cells = row(number, word);
        for (int column = 0; column < cells.size(); column++) {
          sheet.value(number + 1, column, cells.get(column));
        }
        sheet.value(number + 1, cells.size(), massKg(number));
      }
    }
    return out.toByteArray();
  }
}
