package org.kornspur.ingest.publish;

import java.io.IOException;
import java.io.Reader;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.Properties;
import java.util.stream.Collectors;

/** Settings of a Kafka client in a file of Java properties, as Kafka's own commands read them. */
public final class ClientFile {

  private ClientFile() {}

  /**
   * Reads all settings.
   *
   * @throws IOException if the file cannot be read
   */
  public static Map<String, String> read(Path file) throws IOException {
    Properties properties = new Properties();
    try (Reader reader = Files.newBufferedReader(file)) {
      properties.load(reader);
    }
    return properties.stringPropertyNames().stream()
        .collect(Collectors.toMap(name -> name, properties::getProperty));
  }
}
