package org.kornspur.api.problem;

import io.quarkus.vertx.http.runtime.filters.Filters;
import io.vertx.core.MultiMap;
import io.vertx.ext.web.RoutingContext;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Observes;
import java.util.Map;

/**
 * Puts on every answer, of whatever part, what keeps a browser from making more of it than it is:
 * no guessing of types, no framing, nothing loaded from elsewhere and no script within a page (W3C
 * Content Security Policy Level 3; script files obey it too, a service worker among them), no
 * address told to others. As the OWASP HTTP Headers Cheat Sheet advises. What a part has set itself
 * stays.
 */
@ApplicationScoped
public class AnswerHeaders {
  private static final int BEFORE_EVERYTHING = 2200;

  private static final Map<String, String> ON_EVERY_ANSWER =
      Map.of(
          "X-Content-Type-Options",
          "nosniff",
          "Content-Security-Policy",
          "default-src 'self'; object-src 'none'; base-uri 'none'; form-action 'self';"
              + " frame-ancestors 'none'",
          "X-Frame-Options",
          "DENY",
          "Referrer-Policy",
          "same-origin",
          "Cross-Origin-Opener-Policy",
          "same-origin",
          "Cross-Origin-Resource-Policy",
          "same-origin",
          "Permissions-Policy",
          "camera=(), microphone=(), payment=(), usb=()");

  private static final String ONE_YEAR = "max-age=31536000";

  void register(@Observes Filters filters) {
    filters.register(AnswerHeaders::add, BEFORE_EVERYTHING);
  }

  private static void add(RoutingContext context) {
    boolean encrypted = context.request().isSSL();
    boolean isOfInterface = context.request().path().startsWith("/api/");
    context.addHeadersEndHandler(
        ended -> {
          MultiMap headers = context.response().headers();
          ON_EVERY_ANSWER.forEach((name, value) -> putUnlessSet(headers, name, value));
          if (isOfInterface) {
            putUnlessSet(headers, "Cache-Control", "no-store");
          }
          if (encrypted) {
            putUnlessSet(headers, "Strict-Transport-Security", ONE_YEAR);
          }
        });
    context.next();
  }

  private static void putUnlessSet(MultiMap headers, String name, String value) {
    if (!headers.contains(name)) {
      headers.set(name, value);
    }
  }
}
