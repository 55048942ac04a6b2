package org.kornspur.api.http;

import io.quarkus.vertx.http.runtime.CurrentVertxRequest;
import io.vertx.core.http.HttpServerRequest;
import jakarta.annotation.Priority;
import jakarta.inject.Inject;
import jakarta.ws.rs.core.Context;
import jakarta.ws.rs.core.HttpHeaders;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.Response.Status;
import jakarta.ws.rs.ext.Provider;
import jakarta.ws.rs.ext.WriterInterceptor;
import jakarta.ws.rs.ext.WriterInterceptorContext;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.util.Set;
import java.util.regex.Pattern;
import org.jboss.resteasy.spi.HttpResponse;
import org.kornspur.api.text.Addresses;
import org.kornspur.ingest.seal.Hash;

/**
 * Gives the answers of the interface a tag, so that a program that asks again is told in a few
 * bytes that nothing changed. The tag is weak: when the question was answered, and how long that
 * took, is no part of it.
 *
 * <p>Source: RFC 9110, sections 8.8.1 and 13.1.2.
 */
@Provider
@Priority(EntityTags.AROUND_ALL_THAT_WRITES)
public class EntityTags implements WriterInterceptor {
  static final int AROUND_ALL_THAT_WRITES = 1_000;

  /** GeoJSON is not among them: it is written while the fields are read. */
  private static final Set<String> MADE_IN_MEMORY = Set.of("json", "ld+json");

  private static final Pattern OF_THE_MOMENT =
      Pattern.compile("\"(answeredAt|elapsedMs|creationDate|exportedAt)\":[^,}]*");

  @Inject CurrentVertxRequest request;
  @Context HttpResponse response;

  @Override
  public void aroundWriteTo(WriterInterceptorContext context) throws IOException {
    HttpServerRequest asked = request.getCurrent().request();
    if (!isToBeTagged(asked, context.getMediaType())) {
      context.proceed();
      return;
    }
    OutputStream out = context.getOutputStream();
    ByteArrayOutputStream written = new ByteArrayOutputStream();
    context.setOutputStream(written);
    context.proceed();
    context.setOutputStream(out);
    String tag = tag(written.toString(StandardCharsets.UTF_8));
    context.getHeaders().putSingle(HttpHeaders.ETAG, tag);
    if (isKnown(tag, asked.getHeader(HttpHeaders.IF_NONE_MATCH))) {
      response.setStatus(Status.NOT_MODIFIED.getStatusCode());
    } else {
      written.writeTo(out);
    }
  }

  private boolean isToBeTagged(HttpServerRequest asked, MediaType type) {
    return asked.method().name().equals("GET")
        && response.getStatus() == Status.OK.getStatusCode()
        && asked.path().startsWith(Addresses.ROOT + "/")
        && type != null
        && MADE_IN_MEMORY.contains(type.getSubtype());
  }

  /** The tag of a text, without what it says of the moment. */
  public static String tag(String text) {
    return "W/\""
        + Hash.in("kornspur/entity-tag/v1").add(OF_THE_MOMENT.matcher(text).replaceAll("")).done()
        + "\"";
  }

  /** Whether the caller has what the tag is of. */
  public static boolean isKnown(String tag, String ifNoneMatch) {
    return ifNoneMatch != null && (ifNoneMatch.equals("*") || ifNoneMatch.contains(tag));
  }
}
