package org.kornspur.api.command.act;

import io.quarkus.vertx.http.runtime.CurrentVertxRequest;
import jakarta.inject.Inject;
import jakarta.ws.rs.container.ContainerRequestContext;
import jakarta.ws.rs.container.ContainerResponseContext;
import jakarta.ws.rs.container.ContainerResponseFilter;
import jakarta.ws.rs.ext.Provider;
import java.io.IOException;
import java.util.Optional;
import org.kornspur.api.kafka.ProcessorsClient;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.problem.BodyLimit;
import org.kornspur.api.security.Caller;
import org.kornspur.api.security.CallerIdentity;
import org.kornspur.api.security.Permission;
import org.kornspur.contract.ActKind;
import org.kornspur.contract.RefusalGround;
import org.kornspur.ingest.contract.Subject;

/**
 * Puts on record that somebody without the right to sign tried to (21 CFR 11.10(g)). Only of lots
 * and crops that there are: what is made up leaves no trace among the facts.
 */
@Provider
@SignsActs
public class AuthorityRecord implements ContainerResponseFilter {
  @Inject CurrentVertxRequest vertxRequest;
  @Inject Refusals refusals;
  @Inject ProcessorsClient processors;

  @Override
  public void filter(ContainerRequestContext request, ContainerResponseContext response)
      throws IOException {
    Caller caller = CallerIdentity.caller(vertxRequest.getCurrent()).orElse(null);
    if (caller == null || caller.may(Permission.SIGN_ACTS)) {
      return;
    }
    String id = request.getUriInfo().getPathParameters().getFirst("id");
    Subject subject =
        request.getUriInfo().getPath().contains("/crops/") ? Subject.crop(id) : Subject.lot(id);
    if (processors.dossier(subject).isEmpty()) {
      return;
    }
    Optional<ActRequest> asked = asked(request);
    refusals.record(
        subject,
        caller.personId(),
        asked.map(ActRequest::kind).orElse(ActKind.RELEASE),
        asked.map(ActRequest::reason),
        RefusalGround.NO_AUTHORITY,
        "Signing acts is not among the rights of this person"
            + (asked.isPresent() ? "" : "; what was asked for could not be read"));
  }

  private static Optional<ActRequest> asked(ContainerRequestContext request) throws IOException {
    try {
      return Optional.of(ActRequest.read(BodyLimit.read(request.getEntityStream())));
    } catch (ApiProblem unreadable) {
      return Optional.empty();
    }
  }
}
