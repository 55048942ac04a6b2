package org.kornspur.api.page;

import jakarta.ws.rs.container.ContainerRequestContext;
import jakarta.ws.rs.container.ContainerResponseContext;
import jakarta.ws.rs.container.ContainerResponseFilter;
import jakarta.ws.rs.core.HttpHeaders;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.MultivaluedMap;
import jakarta.ws.rs.ext.Provider;

/**
 * Tells browsers what a page may do: load from this server only, be framed by nobody (W3C Content
 * Security Policy Level 3), and be kept by no cache, since standings change.
 */
@Provider
public class PageHeaders implements ContainerResponseFilter {
  private static final String POLICY =
      "default-src 'self'; object-src 'none'; base-uri 'none'; form-action 'self';"
          + " frame-ancestors 'none'";

  @Override
  public void filter(ContainerRequestContext request, ContainerResponseContext response) {
    MediaType type = response.getMediaType();
    if (type == null || !type.isCompatible(MediaType.TEXT_HTML_TYPE)) {
      return;
    }
    MultivaluedMap<String, Object> headers = response.getHeaders();
    headers.putSingle("Content-Security-Policy", POLICY);
    headers.putSingle("X-Content-Type-Options", "nosniff");
    headers.putSingle("Referrer-Policy", "same-origin");
    headers.putSingle(HttpHeaders.CACHE_CONTROL, "no-store");
    headers.putSingle(HttpHeaders.VARY, "Accept, Accept-Language, Cookie");
  }
}
