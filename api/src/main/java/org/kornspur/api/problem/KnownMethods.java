package org.kornspur.api.problem;

import com.fasterxml.jackson.databind.ObjectMapper;
import io.quarkus.vertx.http.runtime.filters.Filters;
import io.vertx.core.http.HttpHeaders;
import io.vertx.ext.web.RoutingContext;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Observes;
import jakarta.inject.Inject;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import org.kornspur.ingest.problem.Given;

/**
 * Refuses methods that no address takes. TRACE among them: it would send back what the browser adds
 * to a request, cookies too (RFC 9110, section 9.3.8).
 */
@ApplicationScoped
public class KnownMethods {
  private static final int AFTER_WHO_ASKS = 90;
  private static final Set<String> KNOWN =
      new TreeSet<>(Set.of("DELETE", "GET", "HEAD", "OPTIONS", "PATCH", "POST", "PUT"));

  @Inject ObjectMapper json;

  void register(@Observes Filters filters) {
    filters.register(this::check, AFTER_WHO_ASKS);
  }

  private void check(RoutingContext context) {
    String method = context.request().method().name();
    if (KNOWN.contains(method)) {
      context.next();
      return;
    }
    String allowed = String.join(", ", KNOWN);
    context.response().putHeader(HttpHeaders.ALLOW, allowed);
    ProblemAnswer.end(
        context,
        ProblemDocument.of(
            ProblemKind.METHOD_NOT_ALLOWED,
            new AddressDetail.UnknownMethod(Given.text(method, false), List.copyOf(KNOWN))),
        json);
  }
}
