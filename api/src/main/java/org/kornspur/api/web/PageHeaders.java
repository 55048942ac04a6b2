package org.kornspur.api.web;

import jakarta.ws.rs.container.ContainerRequestContext;
import jakarta.ws.rs.container.ContainerResponseContext;
import jakarta.ws.rs.container.ContainerResponseFilter;
import jakarta.ws.rs.core.HttpHeaders;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.ext.Provider;

/** Pages are kept by no cache, since standings change. */
@Provider
public class PageHeaders implements ContainerResponseFilter {
  @Override
  public void filter(ContainerRequestContext request, ContainerResponseContext response) {
    MediaType type = response.getMediaType();
    if (type == null || !type.isCompatible(MediaType.TEXT_HTML_TYPE)) {
      return;
    }
    response.getHeaders().putSingle(HttpHeaders.CACHE_CONTROL, "no-store");
  }
}
