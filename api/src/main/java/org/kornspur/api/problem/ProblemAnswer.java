package org.kornspur.api.problem;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import io.vertx.ext.web.RoutingContext;
import jakarta.ws.rs.core.HttpHeaders;
import jakarta.ws.rs.core.Response;
import org.kornspur.api.text.Language;

/** Turns problem documents into answers. */
public final class ProblemAnswer {

  /** Media type of problem documents (RFC 9457). */
  public static final String MEDIA_TYPE = "application/problem+json";

  private ProblemAnswer() {}

  /** Ends a request that no resource has seen yet with this document. */
  public static void end(RoutingContext context, ProblemDocument document, ObjectMapper json) {
    try {
      Language language = language(context);
      context
          .response()
          .setStatusCode(document.status())
          .putHeader(HttpHeaders.CONTENT_TYPE, MEDIA_TYPE)
          .putHeader(HttpHeaders.CONTENT_LANGUAGE, language.tag())
          .end(json.writeValueAsString(ProblemJson.of(document, ProblemLanguage.words(language))));
    } catch (JsonProcessingException e) {
      context.fail(e);
    }
  }

  private static Language language(RoutingContext context) {
    return context.acceptableLanguages().stream()
        .flatMap(accepted -> Language.of(accepted.tag()).stream())
        .findFirst()
        .orElse(Language.ofSite());
  }

  /** An answer with this document; more headers may be set on it. */
  public static Response.ResponseBuilder of(ProblemDocument document) {
    return Response.status(document.status()).type(MEDIA_TYPE).entity(document);
  }
}
