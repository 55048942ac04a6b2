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
    Response.ResponseBuilder answer =
        ProblemAnswer.of(document(given).withStatus(given.getStatus()));
    String allow = given.getHeaderString(HttpHeaders.ALLOW);
    return allow == null ? answer.build() : answer.header(HttpHeaders.ALLOW, allow).build();
  }

  private ProblemDocument document(Response given) {
    Given path = Given.text(uri.getRequestUri().getRawPath(), false);
    AddressDetail otherwise = new AddressDetail.Refused(path, given.getStatus());
    return switch (given.getStatus()) {
      case 404 -> ProblemDocument.of(ProblemKind.NOT_FOUND, new AddressDetail.NoResource(path));
      case 405 ->
          ProblemDocument.of(
              ProblemKind.METHOD_NOT_ALLOWED,
              new AddressDetail.OtherMethod(
                  path, request.getMethod(), given.getHeaderString(HttpHeaders.ALLOW)));
      case 406 ->
          ProblemDocument.of(
              ProblemKind.NOT_ACCEPTABLE,
              new AddressDetail.NotAcceptable(path, header(HttpHeaders.ACCEPT)));
      case 413 -> ProblemDocument.of(ProblemKind.BODY_TOO_LARGE, otherwise);
      case 415 ->
          ProblemDocument.of(
              ProblemKind.UNSUPPORTED_MEDIA_TYPE,
              new AddressDetail.NotRead(path, header(HttpHeaders.CONTENT_TYPE)));
      default -> ProblemDocument.of(ProblemKind.REQUEST_REFUSED, otherwise);
    };
  }

  private Given header(String name) {
    return Given.text(String.valueOf(headers.getHeaderString(name)), false);
  }
}
