package org.kornspur.api.problem;

import jakarta.ws.rs.WebApplicationException;
import jakarta.ws.rs.core.Context;
import jakarta.ws.rs.core.HttpHeaders;
import jakarta.ws.rs.core.Request;
import jakarta.ws.rs.core.Response;
import jakarta.ws.rs.core.UriInfo;
import jakarta.ws.rs.ext.ExceptionMapper;
import jakarta.ws.rs.ext.Provider;
import org.kornspur.ingest.intake.Problem;

/** Gives the refusals of the framework (unknown address, method, media type) as documents. */
@Provider
public final class RefusedRequestMapper implements ExceptionMapper<WebApplicationException> {

  @Context private UriInfo uri;
  @Context private Request request;
  @Context private HttpHeaders headers;

  @Override
  public Response toResponse(WebApplicationException refusal) {
    Response given = refusal.getResponse();
    if (given.getStatus() < 400 || given.hasEntity()) {
      return given;
    }
    if (given.getStatus() >= 500) {
      return UnexpectedMapper.answer(refusal);
    }
    ProblemDocument document =
        ProblemDocument.of(kind(given.getStatus()), detail(given)).withStatus(given.getStatus());
    Response.ResponseBuilder answer = ProblemAnswer.of(document);
    String allow = given.getHeaderString(HttpHeaders.ALLOW);
    return allow == null ? answer.build() : answer.header(HttpHeaders.ALLOW, allow).build();
  }

  private static ProblemKind kind(int status) {
    return switch (status) {
      case 404 -> ProblemKind.NOT_FOUND;
      case 405 -> ProblemKind.METHOD_NOT_ALLOWED;
      case 406 -> ProblemKind.NOT_ACCEPTABLE;
      case 413 -> ProblemKind.BODY_TOO_LARGE;
      case 415 -> ProblemKind.UNSUPPORTED_MEDIA_TYPE;
      default -> ProblemKind.REQUEST_REFUSED;
    };
  }

  private String detail(Response given) {
    String path = Problem.shown(uri.getRequestUri().getRawPath());
    return switch (given.getStatus()) {
      case 404 -> "No resource answers at " + path + ".";
      case 405 ->
          path
              + " does not take "
              + request.getMethod()
              + "; it takes "
              + given.getHeaderString(HttpHeaders.ALLOW)
              + ".";
      case 406 ->
          path
              + " has no answer in "
              + Problem.shown(headers.getHeaderString(HttpHeaders.ACCEPT))
              + ".";
      case 415 ->
          path
              + " does not read "
              + Problem.shown(headers.getHeaderString(HttpHeaders.CONTENT_TYPE))
              + ".";
      default -> "The request to " + path + " is refused with status " + given.getStatus() + ".";
    };
  }
}
