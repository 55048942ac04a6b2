package org.kornspur.api.problem;

import com.fasterxml.jackson.databind.ObjectMapper;
import io.quarkus.vertx.http.runtime.filters.Filters;
import io.vertx.ext.web.RoutingContext;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Observes;
import jakarta.inject.Inject;
import java.util.List;
import org.kornspur.ingest.intake.Problem;

/**
 * Bounds addresses and headers, and says so in words. The server under it bounds them too, but
 * answers without a word; so its own bounds, in the settings, lie beyond these.
 *
 * <p>Source of the first bound: RFC 9110, section 4.1, addresses of at least 8000 octets should be
 * read. The other is what Quarkus takes by itself.
 */
@ApplicationScoped
public class RequestHeadLimit {
  static final int MOST_OF_AN_ADDRESS = 8_000;
  static final int MOST_OF_HEADERS = 20_480;

  private static final int AFTER_KNOWN_METHODS = 80;

  @Inject ObjectMapper json;

  void register(@Observes Filters filters) {
    filters.register(this::check, AFTER_KNOWN_METHODS);
  }

  private void check(RoutingContext context) {
    int address = context.request().uri().length();
    int headers =
        context.request().headers().entries().stream()
            .mapToInt(header -> header.getKey().length() + header.getValue().length())
            .sum();
    if (address > MOST_OF_AN_ADDRESS) {
      refuse(
          context,
          ProblemKind.ADDRESS_TOO_LONG,
          Problem.of(
              "", context.request().uri(), new HeaderProblem.AddressTooLong(MOST_OF_AN_ADDRESS)));
    } else if (headers > MOST_OF_HEADERS) {
      refuse(
          context,
          ProblemKind.HEADERS_TOO_LARGE,
          Problem.of(
              "",
              new RequestGiven.Characters(headers),
              new HeaderProblem.HeadersTooLong(MOST_OF_HEADERS)));
    } else {
      context.next();
    }
  }

  private void refuse(RoutingContext context, ProblemKind kind, Problem problem) {
    ProblemAnswer.end(context, ProblemDocument.of(kind, List.of(problem)), json);
  }
}
