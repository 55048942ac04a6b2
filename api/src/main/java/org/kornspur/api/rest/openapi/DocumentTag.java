package org.kornspur.api.rest.openapi;

import io.quarkus.smallrye.openapi.OpenApiFilter;
import io.quarkus.smallrye.openapi.runtime.OpenApiDocumentService;
import io.quarkus.vertx.http.runtime.filters.Filters;
import io.smallrye.openapi.runtime.io.Format;
import io.vertx.ext.web.RoutingContext;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Observes;
import jakarta.inject.Inject;
import jakarta.ws.rs.core.HttpHeaders;
import jakarta.ws.rs.core.Response.Status;
import java.nio.charset.StandardCharsets;
import org.kornspur.api.http.EntityTags;

/** Lets a program keep the document for as long as it stays the same, and have it compressed. */
@ApplicationScoped
public class DocumentTag {
  private static final String ADDRESS = "/openapi";
  private static final int AFTER_WHO_ASKS_IS_KNOWN = 50;

  @Inject OpenApiDocumentService documents;
  private String tag;

  void register(@Observes Filters filters) {
    filters.register(this::answer, AFTER_WHO_ASKS_IS_KNOWN);
  }

  private void answer(RoutingContext context) {
    if (!context.normalizedPath().equals(ADDRESS)) {
      context.next();
      return;
    }
    // With "identity" Quarkus keeps all from being compressed that it does not write itself.
    context.addHeadersEndHandler(
        ended -> context.response().headers().remove(HttpHeaders.CONTENT_ENCODING));
    context
        .response()
        .putHeader(HttpHeaders.ETAG, tag())
        .putHeader(HttpHeaders.CACHE_CONTROL, "no-cache")
        .putHeader(HttpHeaders.VARY, HttpHeaders.ACCEPT);
    if (EntityTags.isKnown(tag(), context.request().getHeader(HttpHeaders.IF_NONE_MATCH))) {
      context.response().setStatusCode(Status.NOT_MODIFIED.getStatusCode()).end();
    } else {
      context.next();
    }
  }

  /** Of the document in either form, which says the same. */
  private synchronized String tag() {
    if (tag == null) {
      byte[] document = documents.getDocument(OpenApiFilter.DEFAULT_DOCUMENT_NAME, Format.JSON);
      tag = EntityTags.tag(new String(document, StandardCharsets.UTF_8));
    }
    return tag;
  }
}
