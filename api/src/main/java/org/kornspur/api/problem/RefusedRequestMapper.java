package org.kornspur.api.problem;

import jakarta.ws.rs.WebApplicationException;
import jakarta.ws.rs.core.Context;
import jakarta.ws.rs.core.HttpHeaders;
import jakarta.ws.rs.core.Request;
import jakarta.ws.rs.core.Response;
import jakarta.ws.rs.core.UriInfo;
import jakarta.ws.rs.ext.ExceptionMapper;
import jakarta.ws.rs.ext.Provider;
import org.kornspur.ingest.problem.Given;

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

  private AddressDetail detail(Response given) {
    Given path = Given.text(uri.getRequestUri().getRawPath(), false);
    return switch (given.getStatus()) {
      case 404 -> new AddressDetail.NoResource(path);
      case 405 ->
          new AddressDetail.OtherMethod(
              path, request.getMethod(), given.getHeaderString(HttpHeaders.ALLOW));
      case 406 -> new AddressDetail.NotAcceptable(path, header(HttpHeaders.ACCEPT));
      case 415 -> new AddressDetail.NotRead(path, header(HttpHeaders.CONTENT_TYPE));
      default -> new AddressDetail.Refused(path, given.getStatus());
    };
  }

  private Given header(String name) {
    return Given.text(String.valueOf(headers.getHeaderString(name)), false);
  }
}
