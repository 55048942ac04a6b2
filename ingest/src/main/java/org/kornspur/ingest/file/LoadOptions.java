package org.kornspur.ingest.file;

import java.io.IOException;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.Iterator;
import java.util.List;
import java.util.Map;
import java.util.NoSuchElementException;
import java.util.Optional;
import org.apache.kafka.clients.producer.ProducerConfig;
import org.kornspur.ingest.publish.ClientFile;
import org.kornspur.ingest.registry.RegistryConfig;

/**
 * What the command line asks for.
 *
 * @param producer configuration of the Kafka producer
 * @param report file for the report; absent where only the console gets it
 * @param checkOnly whether to read and check without sending anything
 */
record LoadOptions(
    Path folder, Map<String, Object> producer, Optional<Path> report, boolean checkOnly) {

  static final String USAGE =
      """
      Usage: java -jar ingest.jar <folder> [options]
        --client FILE           addresses, log-in and further settings of the Kafka client, as Java
                                properties: client.properties in the data folder of one machine
        --bootstrap HOST:PORT   Kafka broker (default 127.0.0.1:9092)
        --registry URL          schema registry (default http://127.0.0.1:8081)
        --report FILE           write the report there too
        --check-only            read and check, send nothing
        --help                  print this
      Exit code: 0 all accepted, 2 some refused, 1 failed.
      To verify instead what was loaded: java -jar ingest.jar verify --help
      """;

  /**
   * Reads the command line.
   *
   * @throws IllegalArgumentException if it asks for something else; the message says for what
   * @throws IOException if the file of client settings cannot be read
   */
  static LoadOptions parse(String... arguments) throws IOException {
    Map<String, Object> producer = new HashMap<>();
    Path folder = null;
    Path report = null;
    boolean checkOnly = false;
    Iterator<String> rest = List.of(arguments).iterator();
    while (rest.hasNext()) {
      String argument = rest.next();
      switch (argument) {
        case "--bootstrap" ->
            producer.put(ProducerConfig.BOOTSTRAP_SERVERS_CONFIG, valueOf(argument, rest));
        case "--registry" -> producer.put(RegistryConfig.URL, valueOf(argument, rest));
        // What an option names counts before the file, wherever it stands.
        case "--client", "--producer" ->
            ClientFile.read(Path.of(valueOf(argument, rest))).forEach(producer::putIfAbsent);
        case "--report" -> report = Path.of(valueOf(argument, rest));
        case "--check-only" -> checkOnly = true;
        default -> {
          if (argument.startsWith("--")) {
            throw new IllegalArgumentException("There is no option " + argument);
          }
          if (folder != null) {
            throw new IllegalArgumentException(
                "Two folders, " + folder + " and " + argument + "; load one at a time");
          }
          folder = Path.of(argument);
        }
      }
    }
    if (folder == null) {
      throw new IllegalArgumentException("Name the folder to load");
    }
    producer.putIfAbsent(ProducerConfig.BOOTSTRAP_SERVERS_CONFIG, "127.0.0.1:9092");
    producer.putIfAbsent(RegistryConfig.URL, "http://127.0.0.1:8081");
    return new LoadOptions(folder, producer, Optional.ofNullable(report), checkOnly);
  }

  private static String valueOf(String option, Iterator<String> rest) {
    try {
      return rest.next();
    } catch (NoSuchElementException e) {
      throw new IllegalArgumentException("Option " + option + " needs a value", e);
    }
  }
}
