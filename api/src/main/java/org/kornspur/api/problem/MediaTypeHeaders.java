package org.kornspur.api.problem;

import com.fasterxml.jackson.databind.ObjectMapper;
import io.quarkus.vertx.http.runtime.filters.Filters;
import io.vertx.ext.web.RoutingContext;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Observes;
import jakarta.inject.Inject;
import jakarta.ws.rs.core.HttpHeaders;
import jakarta.ws.rs.core.MediaType;
import java.util.Arrays;
import java.util.List;
import org.kornspur.ingest.intake.Problem;

/**
 * Refuses requests whose Accept or Content-Type is no media type, or whose body is packed, before
 * anything reads them. A packed body may hold a thousand times what it seems to; none is unpacked
 * here.
 */
@ApplicationScoped
public class MediaTypeHeaders {
  private static final int AFTER_BODY_LIMIT = 60;

  @Inject ObjectMapper json;

  void register(@Observes Filters filters) {
    filters.register(this::check, AFTER_BODY_LIMIT);
  }

  private void check(RoutingContext context) {
    String accept = context.request().getHeader(HttpHeaders.ACCEPT);
    String contentType = context.request().getHeader(HttpHeaders.CONTENT_TYPE);
    String encoding = context.request().getHeader(HttpHeaders.CONTENT_ENCODING);
    if (accept != null && !isListOfMediaTypes(accept)) {
      refuse(context, ProblemKind.NOT_ACCEPTABLE, HttpHeaders.ACCEPT, accept);
    } else if (contentType != null && !isMediaType(contentType)) {
      refuse(context, ProblemKind.UNSUPPORTED_MEDIA_TYPE, HttpHeaders.CONTENT_TYPE, contentType);
    } else if (encoding != null && !encoding.strip().equalsIgnoreCase("identity")) {
      refuse(
          context,
          ProblemKind.UNSUPPORTED_MEDIA_TYPE,
          HttpHeaders.CONTENT_ENCODING,
          encoding,
          new HeaderProblem.Packed());
    } else {
      context.next();
    }
  }

  private static boolean isListOfMediaTypes(String header) {
    return Arrays.stream(header.split(",", -1)).allMatch(MediaTypeHeaders::isMediaType);
  }

  private static boolean isMediaType(String text) {
    try {
      MediaType.valueOf(text.strip());
      return true;
    } catch (IllegalArgumentException malformed) {
      return false;
    }
  }

  private void refuse(RoutingContext context, ProblemKind kind, String header, String value) {
    refuse(context, kind, header, value, new HeaderProblem.NoMediaType());
  }

  private void refuse(
      RoutingContext context, ProblemKind kind, String header, String value, HeaderProblem reason) {
    ProblemDocument document = ProblemDocument.of(kind, List.of(Problem.of(header, value, reason)));
    ProblemAnswer.end(context, document, json);
  }
}
