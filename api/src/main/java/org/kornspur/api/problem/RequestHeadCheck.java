package org.kornspur.api.problem;

import com.fasterxml.jackson.databind.ObjectMapper;
import io.quarkus.vertx.http.runtime.filters.Filters;
import io.vertx.core.http.HttpHeaders;
import io.vertx.core.http.HttpServerRequest;
import io.vertx.ext.web.RoutingContext;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Observes;
import jakarta.inject.Inject;
import jakarta.ws.rs.core.MediaType;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import org.kornspur.ingest.intake.Problem;
import org.kornspur.ingest.problem.Given;

/** Refuses by its head, before its body is read, a request that no address here can take. */
@ApplicationScoped
public class RequestHeadCheck {
  private static final int AFTER_WHO_ASKS = 90;

  /** Without TRACE: it would send back what the browser adds, cookies too (RFC 9110, 9.3.8). */
  private static final Set<String> METHODS =
      new TreeSet<>(Set.of("DELETE", "GET", "HEAD", "OPTIONS", "PATCH", "POST", "PUT"));

  /** RFC 9110, section 4.1: addresses of at least 8000 octets should be read. */
  private static final int MOST_OF_AN_ADDRESS = 8_000;

  /** What Quarkus takes by itself. */
  private static final int MOST_OF_HEADERS = 20_480;

  @Inject ObjectMapper json;

  void register(@Observes Filters filters) {
    filters.register(this::check, AFTER_WHO_ASKS);
  }

  private void check(RoutingContext context) {
    HttpServerRequest request = context.request();
    Optional<ProblemDocument> refusal =
        ofMethod(context)
            .or(() -> ofLength(request))
            .or(() -> BodyLimit.ofDeclared(request, new BodyProblem.TooLarge(BodyLimit.MOST_BYTES)))
            .or(() -> ofMediaTypes(request));
    refusal.ifPresentOrElse(
        document -> ProblemAnswer.end(context, document, json), () -> context.next());
  }

  private static Optional<ProblemDocument> ofMethod(RoutingContext context) {
    String method = context.request().method().name();
    if (METHODS.contains(method)) {
      return Optional.empty();
    }
    context.response().putHeader(HttpHeaders.ALLOW, String.join(", ", METHODS));
    return Optional.of(
        ProblemDocument.of(
            ProblemKind.METHOD_NOT_ALLOWED,
            new AddressDetail.UnknownMethod(Given.text(method, false), List.copyOf(METHODS))));
  }

  /**
   * The server bounds address and headers too, but answers without a word; its own bounds, in the
   * settings, lie beyond these.
   */
  private static Optional<ProblemDocument> ofLength(HttpServerRequest request) {
    String address = request.uri();
    if (address.length() > MOST_OF_AN_ADDRESS) {
      return refusal(
          ProblemKind.ADDRESS_TOO_LONG,
          Problem.of("", address, new HeaderProblem.AddressTooLong(MOST_OF_AN_ADDRESS)));
    }
    int headers =
        request.headers().entries().stream()
            .mapToInt(header -> header.getKey().length() + header.getValue().length())
            .sum();
    return headers <= MOST_OF_HEADERS
        ? Optional.empty()
        : refusal(
            ProblemKind.HEADERS_TOO_LARGE,
            Problem.of(
                "",
                new RequestGiven.Characters(headers),
                new HeaderProblem.HeadersTooLong(MOST_OF_HEADERS)));
  }

  /** A packed body may hold a thousand times what it seems to; none is unpacked here. */
  private static Optional<ProblemDocument> ofMediaTypes(HttpServerRequest request) {
    String accept = request.getHeader(HttpHeaders.ACCEPT);
    if (accept != null && !Arrays.stream(accept.split(",", -1)).allMatch(type -> isOne(type))) {
      return refusal(
          ProblemKind.NOT_ACCEPTABLE,
          Problem.of("Accept", accept, new HeaderProblem.NoMediaType()));
    }
    String contentType = request.getHeader(HttpHeaders.CONTENT_TYPE);
    if (contentType != null && !isOne(contentType)) {
      return refusal(
          ProblemKind.UNSUPPORTED_MEDIA_TYPE,
          Problem.of("Content-Type", contentType, new HeaderProblem.NoMediaType()));
    }
    String encoding = request.getHeader(HttpHeaders.CONTENT_ENCODING);
    return encoding == null || encoding.strip().equalsIgnoreCase("identity")
        ? Optional.empty()
        : refusal(
            ProblemKind.UNSUPPORTED_MEDIA_TYPE,
            Problem.of("Content-Encoding", encoding, new HeaderProblem.Packed()));
  }

  private static boolean isOne(String mediaType) {
    try {
      MediaType.valueOf(mediaType.strip());
      return true;
    } catch (IllegalArgumentException malformed) {
      return false;
    }
  }

  private static Optional<ProblemDocument> refusal(ProblemKind kind, Problem problem) {
    return Optional.of(ProblemDocument.of(kind, List.of(problem)));
  }
}
