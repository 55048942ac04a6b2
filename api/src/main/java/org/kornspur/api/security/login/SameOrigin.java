package org.kornspur.api.security.login;

import io.vertx.core.http.HttpServerRequest;
import java.net.URI;
import java.util.Set;

/**
 * Whether a request was sent by a page of this very site, or by no page at all. A browser adds what
 * the reader's cookie or password proves to requests of foreign pages too; it also says where they
 * come from.
 *
 * <p>Sources: W3C Fetch Metadata Request Headers, {@code Sec-Fetch-Site}; RFC 6454, {@code Origin}.
 */
public final class SameOrigin {
  private static final Set<String> SAFE = Set.of("GET", "HEAD", "OPTIONS", "TRACE");

  private SameOrigin() {}

  /** Whether a request changes nothing (RFC 9110, section 9.2.1). */
  static boolean isSafe(String method) {
    return SAFE.contains(method);
  }

  /** Whether the browser says that the request comes from a page of another site. */
  public static boolean isFromElsewhere(HttpServerRequest request) {
    String site = request.getHeader("Sec-Fetch-Site");
    if (site != null && !site.equals("same-origin") && !site.equals("none")) {
      return true;
    }
    String origin = request.getHeader("Origin");
    return origin != null && !isOfHost(origin, request.getHeader("Host"));
  }

  /** Whether the browser says that the request comes from a page of this site. */
  static boolean isFromHere(HttpServerRequest request) {
    return !isFromElsewhere(request)
        && ("same-origin".equals(request.getHeader("Sec-Fetch-Site"))
            || request.getHeader("Origin") != null);
  }

  private static boolean isOfHost(String origin, String host) {
    if (host == null) {
      return false;
    }
    try {
      return host.equalsIgnoreCase(URI.create(origin).getAuthority());
    } catch (IllegalArgumentException malformed) {
      return false;
    }
  }
}
