package org.kornspur.api.packaged;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.io.Reader;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.StreamSupport;
import org.yaml.snakeyaml.LoaderOptions;
import org.yaml.snakeyaml.Yaml;
import org.yaml.snakeyaml.constructor.SafeConstructor;

/** The project's {@code docker-compose.yml}, with its anchors and merge keys resolved. */
record ComposeFile(JsonNode root) {

  private static final Pattern GIVEN = Pattern.compile("\\$\\{(\\w+):\\?[^}]*}");
  private static final Path PATH = Path.of("..", "docker-compose.yml");

  static ComposeFile read() throws IOException {
    try (Reader reader = Files.newBufferedReader(PATH)) {
      Object document = new Yaml(new SafeConstructor(new LoaderOptions())).load(reader);
      return new ComposeFile(new ObjectMapper().valueToTree(document));
    }
  }

  /** With another service, as one that is there, of another name. */
  ComposeFile withAnother(String like, String name) throws IOException {
    JsonNode copy = root.deepCopy();
    String another = service(like).toString().replace(like, name);
    ((ObjectNode) copy.path("services")).set(name, new ObjectMapper().readTree(another));
    return new ComposeFile(copy);
  }

  List<String> serviceNames() {
    return StreamSupport.stream(
            ((Iterable<String>) () -> root.path("services").fieldNames()).spliterator(), false)
        .toList();
  }

  JsonNode service(String name) {
    JsonNode service = root.path("services").path(name);
    if (service.isMissingNode()) {
      throw new IllegalArgumentException("docker-compose.yml has no service " + name);
    }
    return service;
  }

  /** In place of what whoever starts the layout must give, as {@code ${NAME:?why}}. */
  static String given(String name) {
    return "an invented secret, long enough, for tests of " + name;
  }

  Map<String, String> environment(String service) {
    Map<String, String> environment = new LinkedHashMap<>();
    service(service)
        .path("environment")
        .properties()
        .forEach(
            entry ->
                environment.put(
                    entry.getKey(),
                    GIVEN
                        .matcher(entry.getValue().asText())
                        .replaceAll(name -> given(name.group(1)))));
    return environment;
  }

  /** Ports that the service opens on this machine: address, port there, port within. */
  List<Published> published(String service) {
    return texts(service(service).path("ports")).map(Published::parse).toList();
  }

  /** Folders that the service keeps between runs, by the name of their volume. */
  Map<String, String> volumeFolders(String service) {
    return texts(service(service).path("volumes"))
        .map(volume -> volume.split(":", 2))
        .collect(Collectors.toMap(parts -> parts[0], parts -> parts[1]));
  }

  private static java.util.stream.Stream<String> texts(JsonNode list) {
    return StreamSupport.stream(list.spliterator(), false).map(JsonNode::asText);
  }

  record Published(String address, int port, int within) {
    static Published parse(String text) {
      String[] parts = text.split(":", -1);
      if (parts.length != 3) {
        throw new IllegalArgumentException(
            "Port " + text + " must name address, port and port within, as 127.0.0.1:8080:8080");
      }
      return new Published(parts[0], Integer.parseInt(parts[1]), Integer.parseInt(parts[2]));
    }
  }
}
