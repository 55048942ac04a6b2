package org.kornspur.api.http;

import jakarta.ws.rs.container.ContainerRequestContext;
import jakarta.ws.rs.container.ContainerResponseContext;
import jakarta.ws.rs.container.ContainerResponseFilter;
import jakarta.ws.rs.core.Context;
import jakarta.ws.rs.core.HttpHeaders;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.MultivaluedMap;
import jakarta.ws.rs.ext.Provider;
import java.util.List;
import org.kornspur.api.problem.ProblemAnswer;
import org.kornspur.api.text.Language;

/**
 * Says in which language the sentences of an answer are, and what that depends on.
 *
 * <p>Source: RFC 9110, sections 8.5 and 12.5.5.
 */
@Provider
public class LanguageHeaders implements ContainerResponseFilter {
  private static final List<MediaType> WITH_SENTENCES =
      List.of(
          MediaType.TEXT_HTML_TYPE,
          MediaType.APPLICATION_JSON_TYPE,
          MediaType.valueOf(ProblemAnswer.MEDIA_TYPE));

  @Context HttpHeaders asked;

  @Override
  public void filter(ContainerRequestContext request, ContainerResponseContext response) {
    MediaType type = response.getMediaType();
    if (type == null || WITH_SENTENCES.stream().noneMatch(type::isCompatible)) {
      return;
    }
    MultivaluedMap<String, Object> headers = response.getHeaders();
    headers.putSingle(HttpHeaders.CONTENT_LANGUAGE, Language.of(asked).tag());
    headers.putSingle(HttpHeaders.VARY, "Accept, Accept-Language, Cookie");
  }
}
