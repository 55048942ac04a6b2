package org.kornspur.api.operations;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.Reader;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.StreamSupport;
import org.yaml.snakeyaml.LoaderOptions;
import org.yaml.snakeyaml.Yaml;
import org.yaml.snakeyaml.constructor.SafeConstructor;

/** The project's rules for alerts. */
public record AlertRules(JsonNode root) {
  static final Path FILE = Path.of("..", ".operations", "alert-rules.yml");

  public static AlertRules read() throws IOException {
    try (Reader reader = Files.newBufferedReader(FILE)) {
      Object document = new Yaml(new SafeConstructor(new LoaderOptions())).load(reader);
      return new AlertRules(new ObjectMapper().valueToTree(document));
    }
  }

  /** Each rule, as Prometheus names its parts. */
  public List<JsonNode> all() {
    return StreamSupport.stream(root.path("groups").spliterator(), false)
        .flatMap(group -> StreamSupport.stream(group.path("rules").spliterator(), false))
        .toList();
  }
}
