package org.kornspur.api.web;

import jakarta.ws.rs.container.ContainerRequestContext;
import jakarta.ws.rs.container.ContainerResponseContext;
import jakarta.ws.rs.container.ContainerResponseFilter;
import jakarta.ws.rs.core.HttpHeaders;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.ext.Provider;
import java.nio.charset.StandardCharsets;

/**
 * Pages are kept by no cache, since standings change; and a page of status 400 goes out as it is.
 */
@Provider
public class PageHeaders implements ContainerResponseFilter {
  private static final int BAD_REQUEST = 400;

  @Override
  public void filter(ContainerRequestContext request, ContainerResponseContext response) {
    MediaType type = response.getMediaType();
    if (type == null || !type.isCompatible(MediaType.TEXT_HTML_TYPE)) {
      return;
    }
    response.getHeaders().putSingle(HttpHeaders.CACHE_CONTROL, "no-store");
    if (response.getStatus() == BAD_REQUEST && response.getEntity() instanceof String page) {
      // RESTEasy escapes text of this status as if it were a message; ours is a page, escaped
      // where it repeats what was sent
      response.setEntity(
          page.getBytes(StandardCharsets.UTF_8), response.getEntityAnnotations(), type);
    }
  }
}
