package org.kornspur.api.security.login;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.ws.rs.container.ContainerRequestContext;
import jakarta.ws.rs.core.MediaType;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import org.kornspur.api.security.Caller;

/**
 * Whether a request that changes something, sent with the cookie of a log-in, carries the token
 * that only pages of that log-in know: in the header {@code X-CSRF-Token}, or in the field {@code
 * csrfToken} of a form.
 */
@ApplicationScoped
public class FormTokens {

  /** Name of the header. */
  public static final String HEADER = "X-CSRF-Token";

  /** Name of the field in a form. */
  public static final String FIELD = "csrfToken";

  private final Sessions sessions;

  FormTokens(Sessions sessions) {
    this.sessions = sessions;
  }

  public boolean isGood(ContainerRequestContext request, Caller caller) throws IOException {
    if (caller.proof() != Caller.Proof.SESSION || SameOriginFilter.isSafe(request.getMethod())) {
      return true;
    }
    String given = request.getHeaderString(HEADER);
    if (given == null && is(request, MediaType.APPLICATION_FORM_URLENCODED_TYPE)) {
      given = FormFields.of(body(request)).first(FIELD).orElse(null);
    } else if (given == null && is(request, MediaType.MULTIPART_FORM_DATA_TYPE)) {
      given = MultipartForm.of(request.getMediaType(), body(request)).text(FIELD).orElse(null);
    }
    return sessions.isFormToken(caller, given);
  }

  private static boolean is(ContainerRequestContext request, MediaType form) {
    MediaType type = request.getMediaType();
    return type != null && type.isCompatible(form);
  }

  /** The body is read here and put back for whoever reads it next. */
  private static byte[] body(ContainerRequestContext request) throws IOException {
    byte[] body = request.getEntityStream().readAllBytes();
    request.setEntityStream(new ByteArrayInputStream(body));
    return body;
  }
}
