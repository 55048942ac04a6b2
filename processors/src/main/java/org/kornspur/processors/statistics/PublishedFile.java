package org.kornspur.processors.statistics;

import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.dataformat.yaml.YAMLFactory;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.Map;
import java.util.Objects;

/** Reads the files of published numbers that lie beside this class. */
final class PublishedFile {

  private static final ObjectMapper YAML = new ObjectMapper(new YAMLFactory());

  private PublishedFile() {}

  /**
   * @param name file name without ending
   * @param shape record that the file is read into
   */
  static <T> T read(String name, Class<T> shape) {
    try (InputStream in = PublishedFile.class.getResourceAsStream(name + ".yaml")) {
      return YAML.readValue(Objects.requireNonNull(in, name + ".yaml is missing"), shape);
    } catch (IOException e) {
      throw new UncheckedIOException("The file " + name + ".yaml cannot be read", e);
    }
  }

  /** The source that a row names; no row may stand without one. */
  static Source source(Map<String, Source> sources, String key) {
    return Objects.requireNonNull(sources.get(key), "A row names an unknown source: " + key);
  }
}
