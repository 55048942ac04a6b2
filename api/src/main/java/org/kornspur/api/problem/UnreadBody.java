package org.kornspur.api.problem;

import io.netty.channel.Channel;
import io.netty.util.AttributeKey;
import io.quarkus.vertx.http.runtime.filters.Filters;
import io.vertx.core.http.HttpHeaders;
import io.vertx.core.http.HttpServerRequest;
import io.vertx.core.net.impl.ConnectionBase;
import io.vertx.ext.web.RoutingContext;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Observes;

/**
 * Ends the connection after an answer that was given before the body of its request was read to the
 * end: what is left of the body would stand before the next request on the same connection, which
 * would then never be answered. The answer says so first (RFC 9112, section 9.6). The settings let
 * nobody speak HTTP/2, where the connection would be that of other requests too.
 */
@ApplicationScoped
public class UnreadBody {
  private static final int BEFORE_EVERY_ANSWER = 2100;
  private static final String CLOSE = "close";

  private static final AttributeKey<Boolean> LEFT = AttributeKey.valueOf(UnreadBody.class, "left");

  void register(@Observes Filters filters) {
    filters.register(UnreadBody::watch, BEFORE_EVERY_ANSWER);
  }

  private static void watch(RoutingContext context) {
    HttpServerRequest request = context.request();
    if (hasBody(request)) {
      context.addHeadersEndHandler(
          headers -> {
            if (!request.isEnded()) {
              context.response().putHeader(HttpHeaders.CONNECTION, CLOSE);
              ((ConnectionBase) request.connection()).channel().attr(LEFT).set(true);
            }
          });
      // Not the end handler: RESTEasy puts its own in the place of what stands there.
      context.addBodyEndHandler(
          written -> {
            if (context.response().headers().contains(HttpHeaders.CONNECTION, CLOSE, true)) {
              request.connection().close();
            }
          });
    }
    context.next();
  }

  /** Whether a connection is to be closed before the last body on it was read. */
  public static boolean isLeftOn(Channel connection) {
    return connection.hasAttr(LEFT);
  }

  /** Whether a request has a body, or says so. */
  public static boolean hasBody(HttpServerRequest request) {
    String length = request.getHeader(HttpHeaders.CONTENT_LENGTH);
    return request.getHeader(HttpHeaders.TRANSFER_ENCODING) != null
        || (length != null && !length.strip().equals("0"));
  }
}
