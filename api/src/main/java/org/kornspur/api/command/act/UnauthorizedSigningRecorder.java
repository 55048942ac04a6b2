package org.kornspur.api.command.act;

import io.quarkus.vertx.http.runtime.CurrentVertxRequest;
import jakarta.inject.Inject;
import jakarta.ws.rs.container.ContainerRequestContext;
import jakarta.ws.rs.container.ContainerResponseContext;
import jakarta.ws.rs.container.ContainerResponseFilter;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.ext.Provider;
import java.io.IOException;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Supplier;
import org.kornspur.api.kafka.ProcessorsClient;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.security.Caller;
import org.kornspur.api.security.CallerIdentity;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.login.FormFields;
import org.kornspur.contract.ActKind;
import org.kornspur.contract.RefusalGround;
import org.kornspur.ingest.contract.Subject;

/**
 * Puts on record that somebody without the right to sign tried to (21 CFR 11.10(g)). Only of lots
 * and crops that there are: what is made up leaves no trace among the facts.
 */
@Provider
@RecordsUnauthorizedSigning
public class UnauthorizedSigningRecorder implements ContainerResponseFilter {
  @Inject CurrentVertxRequest vertxRequest;
  @Inject RefusedActRecorder refusals;
  @Inject ProcessorsClient processors;

  @Override
  public void filter(ContainerRequestContext request, ContainerResponseContext response)
      throws IOException {
    Caller caller = CallerIdentity.caller(vertxRequest.getCurrent()).orElse(null);
    if (caller == null || caller.may(Permission.SIGN_ACTS)) {
      return;
    }
    for (Attempt attempt : attempts(request)) {
      if (!processors.entries(attempt.subject()).isEmpty()) {
        refusals.record(
            attempt.subject(),
            caller.personId(),
            attempt.asked().map(ActRequest::kind).orElse(ActKind.RELEASE),
            attempt.asked().map(ActRequest::reason),
            RefusalGround.NO_AUTHORITY,
            "Signing acts is not among the rights of this person"
                + (attempt.asked().isPresent() ? "" : "; what was asked for could not be read"));
      }
    }
  }

  /**
   * What somebody wanted to sign for.
   *
   * @param asked empty where it could not be read
   */
  private record Attempt(Subject subject, Optional<ActRequest> asked) {}

  /** One where the address names its subject, else one for each lot that the body names. */
  private static List<Attempt> attempts(ContainerRequestContext request) throws IOException {
    byte[] body = request.getEntityStream().readAllBytes();
    String id = request.getUriInfo().getPathParameters().getFirst("id");
    if (id == null) {
      return several(request, body);
    }
    return List.of(
        new Attempt(
            request.getUriInfo().getPath().contains("/crops/") ? Subject.crop(id) : Subject.lot(id),
            readable(() -> ActRequest.read(body))));
  }

  private static List<Attempt> several(ContainerRequestContext request, byte[] body) {
    MediaType type = request.getMediaType();
    ActKind kind =
        request.getUriInfo().getPath().endsWith("/suspension") ? ActKind.SUSPEND : ActKind.RELEASE;
    boolean isForm = type != null && type.isCompatible(MediaType.APPLICATION_FORM_URLENCODED_TYPE);
    return readable(
            () ->
                isForm
                    ? ReleasesRequest.read(FormFields.of(body), kind)
                    : ReleasesRequest.read(body))
        .map(ReleasesRequest::acts)
        .orElse(Map.of())
        .entrySet()
        .stream()
        .map(each -> new Attempt(each.getKey(), Optional.of(each.getValue())))
        .toList();
  }

  private static <T> Optional<T> readable(Supplier<T> request) {
    try {
      return Optional.of(request.get());
    } catch (ApiProblem unreadable) {
      return Optional.empty();
    }
  }
}
