package org.kornspur.api.security.visibility;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import com.fasterxml.jackson.databind.node.TextNode;
import io.quarkus.vertx.http.runtime.CurrentVertxRequest;
import io.vertx.core.http.HttpServerRequest;
import jakarta.inject.Inject;
import jakarta.ws.rs.WebApplicationException;
import jakarta.ws.rs.container.ResourceInfo;
import jakarta.ws.rs.core.Context;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.ext.Provider;
import jakarta.ws.rs.ext.WriterInterceptor;
import jakarta.ws.rs.ext.WriterInterceptorContext;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.net.URLDecoder;
import java.nio.charset.StandardCharsets;
import java.util.HashSet;
import java.util.Set;
import org.kornspur.api.problem.ProblemJson;
import org.kornspur.api.readmodel.ReadModel;
import org.kornspur.api.security.CurrentCaller;

/**
 * Takes names that a caller may not know out of every answer to a question, whatever wrote it. What
 * the resource uses of the question may stand in the answer; see {@link RequestEcho}. Problem
 * documents and {@link SkipRedaction} repeat what the caller said and stay as they are.
 */
@Provider
public class ResponseRedactor implements WriterInterceptor {
  @Inject CurrentCaller caller;
  @Inject VisibilityService visibilityService;
  @Inject ReadModel readModel;
  @Inject ObjectMapper json;
  @Inject CurrentVertxRequest request;
  @Inject RequestEcho asked;
  @Context ResourceInfo resource;

  @Override
  public void aroundWriteTo(WriterInterceptorContext context)
      throws IOException, WebApplicationException {
    if (!isToBeRead(context)
        || caller.ifKnown().isEmpty()
        || !visibilityService.visibility().withholdsNames()) {
      context.proceed();
      return;
    }
    OutputStream out = context.getOutputStream();
    ByteArrayOutputStream written = new ByteArrayOutputStream();
    context.setOutputStream(written);
    context.proceed();
    context.getHeaders().remove("Content-Length");
    out.write(redacted(written.toByteArray(), context.getMediaType()));
    context.setOutputStream(out);
  }

  private boolean isToBeRead(WriterInterceptorContext context) {
    MediaType type = context.getMediaType();
    boolean isText =
        type != null
            && (isJson(type) || type.getType().equals("text") || type.getSubtype().endsWith("xml"))
            && !type.isCompatible(MediaType.SERVER_SENT_EVENTS_TYPE);
    return isText
        && request.getCurrent().request().method().name().equals("GET")
        && !(context.getEntity() instanceof ProblemJson)
        && (resource.getResourceMethod() == null
            || !resource.getResourceMethod().isAnnotationPresent(SkipRedaction.class));
  }

  private static boolean isJson(MediaType type) {
    return type.getSubtype().equals("json") || type.getSubtype().endsWith("+json");
  }

  private byte[] redacted(byte[] answer, MediaType type) throws IOException {
    Visibility visibility = visibilityService.visibility();
    IdRedactor names =
        new IdRedactor(readModel.standings(), visibility, saidByCaller(), asked.ignored());
    if (isJson(type)) {
      return json.writeValueAsBytes(redacted(json.readTree(answer), names));
    }
    return names
        .redacted(new String(answer, StandardCharsets.UTF_8))
        .getBytes(StandardCharsets.UTF_8);
  }

  /** What the resource uses, with and without a kind before the id. */
  private Set<String> saidByCaller() {
    Set<String> said = new HashSet<>();
    asked.used().orElseGet(this::wholeAddress).forEach(value -> said.add(value.strip()));
    Set<String> ids = new HashSet<>(said);
    said.forEach(word -> ids.add(word.substring(word.indexOf(':') + 1)));
    return ids;
  }

  /** Where there is no such resource, the answer holds no data that could confirm a guess. */
  private Set<String> wholeAddress() {
    HttpServerRequest address = request.getCurrent().request();
    Set<String> words = new HashSet<>();
    for (String part : address.path().split("/")) {
      words.add(URLDecoder.decode(part, StandardCharsets.UTF_8));
    }
    address.params().forEach(parameter -> words.add(parameter.getValue()));
    return words;
  }

  static JsonNode redacted(JsonNode node, IdRedactor names) {
    if (node instanceof TextNode text) {
      return TextNode.valueOf(names.redacted(text.textValue()));
    }
    if (node instanceof ArrayNode list) {
      for (int at = 0; at < list.size(); at++) {
        list.set(at, redacted(list.get(at), names));
      }
    } else if (node instanceof ObjectNode object) {
      ObjectNode kept = object.objectNode();
      object
          .properties()
          .forEach(
              field -> kept.set(names.redacted(field.getKey()), redacted(field.getValue(), names)));
      return kept;
    }
    return node;
  }
}
