package org.kornspur.api.rest.openapi;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.net.URI;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.kornspur.api.NpmPackages;
import org.kornspur.api.security.login.AsPerson;
import org.kornspur.api.security.people.TestPeople;

/**
 * What npm packages say of the document: the linters Redocly and Spectral, and a client in
 * TypeScript that openapi-typescript makes of it.
 */
final class OpenApiPackages {
  private static final ObjectMapper JSON = new ObjectMapper();
  private static final long LIMIT_MIN = 3;

  private OpenApiPackages() {}

  static JsonNode check(JsonNode document, URI root) throws Exception {
    Path folder = NpmPackages.folder();
    Files.writeString(folder.resolve("openapi.json"), document.toString());
    Path output = folder.resolve("openapi-found.json");
    Path errors = folder.resolve("openapi-errors.txt");
    ProcessBuilder node =
        new ProcessBuilder(List.of("node", "openapi.mjs", root.toString()))
            .directory(folder.toFile())
            .redirectOutput(output.toFile())
            .redirectError(errors.toFile());
    node.environment().put("AUTHORIZATION", TestPeople.basic(AsPerson.EVERYTHING));
    Process process = node.start();
    boolean ended = process.waitFor(LIMIT_MIN, TimeUnit.MINUTES);
    process.destroyForcibly();
    assertThat(ended).isTrue();
    assertThat(process.exitValue()).as(Files.readString(errors)).isZero();
    return JSON.readTree(output.toFile());
  }
}
