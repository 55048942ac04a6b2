package org.kornspur.ingest.verify;

import java.io.IOException;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.Iterator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.apache.kafka.clients.consumer.ConsumerConfig;
import org.kornspur.ingest.publish.ClientFile;

/**
 * What the command line asks to verify: exactly one of cluster, folder and file.
 *
 * @param cluster settings of a Kafka consumer
 * @param folder data folder of a stopped machine
 * @param file an exported proof
 * @param trust folder of public keys; absent where the keys that come along are used
 * @param anchors file of checkpoints that were handed out, one JSON a line
 */
record VerifyOptions(
    Optional<Map<String, Object>> cluster,
    Optional<Path> folder,
    Optional<Path> file,
    Optional<Path> trust,
    Optional<Path> anchors) {

  static final String USAGE =
      """
      Usage: java -jar ingest.jar verify --client FILE [options]                   a running machine
             java -jar ingest.jar verify --bootstrap-servers HOST:PORT [options]   a running cluster
             java -jar ingest.jar verify --data-folder FOLDER [options]            a stopped machine
             java -jar ingest.jar verify FILE.json [options]                       an exported proof
        --trust FOLDER        public keys, *.pub.pem, whose signatures count; without it the keys
                              that come along are used, and only what they sign is held together
        --checkpoints FILE    checkpoints handed out earlier, one after the other: shows
                              whether the log was cut off since
        --client FILE         brokers, log-in and further settings of the Kafka client, as Java
                              properties: client.properties in the data folder of one machine
        --help                print this
      Exit code: 0 as it was signed, 2 nothing is signed yet, 3 tampered with, 1 could not verify.
      """;

  /**
   * Reads the command line, without the word {@code verify}.
   *
   * @throws IllegalArgumentException if it asks for something else; the message says for what
   * @throws IOException if the file of client settings cannot be read
   */
  static VerifyOptions parse(List<String> arguments) throws IOException {
    Map<String, Object> consumer = new HashMap<>();
    Path folder = null;
    Path file = null;
    Path trust = null;
    Path anchors = null;
    Iterator<String> rest = arguments.iterator();
    while (rest.hasNext()) {
      String argument = rest.next();
      switch (argument) {
        case "--bootstrap-servers", "--bootstrap" ->
            consumer.put(ConsumerConfig.BOOTSTRAP_SERVERS_CONFIG, valueOf(argument, rest));
        case "--client", "--consumer" ->
            ClientFile.read(Path.of(valueOf(argument, rest))).forEach(consumer::putIfAbsent);
        case "--data-folder" -> folder = Path.of(valueOf(argument, rest));
        case "--trust" -> trust = Path.of(valueOf(argument, rest));
        case "--checkpoints" -> anchors = Path.of(valueOf(argument, rest));
        default -> {
          if (argument.startsWith("--") || file != null) {
            throw new IllegalArgumentException(
                argument.startsWith("--")
                    ? "There is no option " + argument
                    : "Two files, " + file + " and " + argument + "; verify one at a time");
          }
          file = Path.of(argument);
        }
      }
    }
    boolean running = consumer.containsKey(ConsumerConfig.BOOTSTRAP_SERVERS_CONFIG);
    int asked = (running ? 1 : 0) + (folder == null ? 0 : 1) + (file == null ? 0 : 1);
    if (asked != 1) {
      throw new IllegalArgumentException(
          "Name one of --client, --bootstrap-servers, --data-folder and a file; "
              + asked
              + " are named");
    }
    return new VerifyOptions(
        running ? Optional.of(consumer) : Optional.empty(),
        Optional.ofNullable(folder),
        Optional.ofNullable(file),
        Optional.ofNullable(trust),
        Optional.ofNullable(anchors));
  }

  private static String valueOf(String option, Iterator<String> rest) {
    if (!rest.hasNext()) {
      throw new IllegalArgumentException("Option " + option + " needs a value");
    }
    return rest.next();
  }
}
