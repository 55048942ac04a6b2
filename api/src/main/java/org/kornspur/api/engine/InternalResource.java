package org.kornspur.api.engine;

import jakarta.inject.Inject;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.MediaType;
import java.util.List;
import java.util.Optional;
import org.eclipse.microprofile.openapi.annotations.Operation;
import org.kornspur.api.access.Permission;
import org.kornspur.api.access.RequiresPermission;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.stream.ChainPositions;
import org.kornspur.processors.stream.RegisterEntry;

/** What instances ask each other: only of what this instance holds itself, never passed on. */
@Path(InternalResource.ROOT)
@Produces(MediaType.APPLICATION_JSON)
public class InternalResource {
  static final String ROOT = "/internal";
  static final String DOSSIER = "/dossier";
  static final String REPORTS = "/reports";
  static final String REGISTER = "/register";
  static final String POSITIONS = "/positions";

  @Inject KafkaEngine engine;

  @GET
  @RequiresPermission(Permission.ASK_AS_INSTANCE)
  @Path(DOSSIER)
  @Operation(hidden = true)
  public List<KeptEntry> dossier(@QueryParam("key") String subject) {
    return engine.dossierHere(Subject.parse(subject));
  }

  @GET
  @RequiresPermission(Permission.ASK_AS_INSTANCE)
  @Path(REPORTS)
  @Operation(hidden = true)
  public List<byte[]> reports(@QueryParam("key") String subject) {
    return engine.reportsHere(Subject.parse(subject));
  }

  @GET
  @RequiresPermission(Permission.ASK_AS_INSTANCE)
  @Path(REGISTER)
  @Operation(hidden = true)
  public Optional<RegisterEntry> register(@QueryParam("key") String factId) {
    return engine.registeredHere(factId);
  }

  @GET
  @RequiresPermission(Permission.ASK_AS_INSTANCE)
  @Path(POSITIONS)
  @Operation(hidden = true)
  public List<ChainPositions.Position> positions(@QueryParam("key") String factId) {
    return engine.positionsHere(factId);
  }
}
