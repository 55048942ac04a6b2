package org.kornspur.api.problem;

import jakarta.ws.rs.core.Response;

/** Turns problem documents into answers. */
public final class ProblemAnswer {

  /** Media type of problem documents (RFC 9457). */
  public static final String MEDIA_TYPE = "application/problem+json";

  private ProblemAnswer() {}

  /** An answer with this document; more headers may be set on it. */
  public static Response.ResponseBuilder of(ProblemDocument document) {
    return Response.status(document.status()).type(MEDIA_TYPE).entity(document);
  }
}
