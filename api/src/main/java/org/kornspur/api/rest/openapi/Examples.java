package org.kornspur.api.rest.openapi;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.Map;
import java.util.Optional;
import org.eclipse.microprofile.openapi.OASFactory;
import org.eclipse.microprofile.openapi.models.Operation;
import org.eclipse.microprofile.openapi.models.media.MediaType;
import org.eclipse.microprofile.openapi.models.responses.APIResponse;

/**
 * Answers and facts of the demo, as examples; the tests hold them to what the demo answers.
 *
 * @param requests to operations, by the id of the operation
 * @param answers to each operation, by its id
 * @param facts one of each type that may be sent in, by the type
 */
record Examples(JsonNode requests, JsonNode answers, JsonNode facts) {
  private static final ObjectMapper JSON = new ObjectMapper();
  private static final String POST_FACTS = "postFacts";

  static Examples read() {
    try (InputStream file = Examples.class.getResourceAsStream("/openapi/examples.json")) {
      JsonNode read = JSON.readTree(file);
      return new Examples(read.path("requests"), read.path("answers"), read.path("facts"));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  void addTo(Operation operation) {
    JsonNode answer = answers.path(operation.getOperationId());
    if (!answer.isMissingNode()) {
      media(operation.getResponses().getAPIResponse("200"))
          .ifPresent(media -> media.setExample(plain(answer)));
    }
    JsonNode request = requests.path(operation.getOperationId());
    if (!request.isMissingNode()) {
      body(operation).setExample(plain(request));
    }
    if (operation.getOperationId().equals(POST_FACTS)) {
      MediaType body = body(operation);
      facts
          .properties()
          .forEach(
              fact ->
                  body.addExample(
                      fact.getKey(), OASFactory.createExample().value(plain(fact.getValue()))));
    }
  }

  private static MediaType body(Operation operation) {
    return operation.getRequestBody().getContent().getMediaType("application/json");
  }

  private static Optional<MediaType> media(APIResponse response) {
    return Optional.ofNullable(response)
        .map(APIResponse::getContent)
        .flatMap(
            content ->
                content.getMediaTypes().entrySet().stream()
                    .filter(type -> type.getKey().endsWith("json"))
                    .map(Map.Entry::getValue)
                    .findFirst());
  }

  private static Object plain(JsonNode json) {
    return JSON.convertValue(json, Object.class);
  }
}
