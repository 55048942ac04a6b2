package org.kornspur.api.web;

import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import jakarta.annotation.Priority;
import jakarta.inject.Inject;
import jakarta.ws.rs.Priorities;
import jakarta.ws.rs.container.ContainerRequestContext;
import jakarta.ws.rs.container.ContainerResponseContext;
import jakarta.ws.rs.container.ContainerResponseFilter;
import jakarta.ws.rs.core.HttpHeaders;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.ext.Provider;
import java.lang.annotation.Annotation;
import java.util.List;
import org.kornspur.api.problem.ProblemDocument;
import org.kornspur.api.problem.ProblemLanguage;
import org.kornspur.api.text.Addresses;
import org.kornspur.api.text.PageTexts;

/**
 * Shows a problem document as a page to who asked for a page. The interface under {@code /api}
 * keeps to problem documents, whatever is asked for.
 */
@Provider
@Priority(ProblemPages.BEFORE_HEADERS_ARE_SET)
public class ProblemPages implements ContainerResponseFilter {
  /** Filters of answers run from the highest number down. */
  static final int BEFORE_HEADERS_ARE_SET = Priorities.USER + 100;

  private static final Annotation[] NONE = {};

  @Inject PageFrames pages;

  /** What the page on a problem shows. */
  public record Refusal(int status, String title, String remedy, String detail) {}

  @CheckedTemplate(basePath = "web")
  static class Templates {
    static native TemplateInstance problem(PageFrame page, Refusal refusal);
  }

  @Override
  public void filter(ContainerRequestContext request, ContainerResponseContext response) {
    if (response.getEntity() instanceof ProblemDocument document && wantsPage(request)) {
      String page =
          pages.render(
              Templates.problem(pages.around(NavigationItem.ELSEWHERE), refusal(document)));
      response.setEntity(page, NONE, MediaType.TEXT_HTML_TYPE.withCharset("UTF-8"));
      response.getHeaders().putSingle(HttpHeaders.CONTENT_TYPE, "text/html;charset=UTF-8");
    }
  }

  private static boolean wantsPage(ContainerRequestContext request) {
    List<MediaType> accepted = request.getAcceptableMediaTypes();
    return !request.getUriInfo().getRequestUri().getPath().startsWith(Addresses.ROOT)
        && !accepted.isEmpty()
        && !accepted.get(0).isWildcardType()
        && accepted.get(0).isCompatible(MediaType.TEXT_HTML_TYPE);
  }

  private Refusal refusal(ProblemDocument document) {
    PageTexts texts = pages.words().texts("frame");
    int status = document.status();
    String key =
        switch (status) {
          case 403 -> "forbidden";
          case 404 -> "notFound";
          case 500 -> "unexpected";
          case 503 -> "notReady";
          default -> "refused";
        };
    return new Refusal(
        status,
        texts.of(key),
        texts.of(key + "Remedy"),
        document.detail(ProblemLanguage.words(pages.words().language())));
  }
}
