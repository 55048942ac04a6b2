package org.kornspur.api.rest;

import jakarta.inject.Inject;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.MediaType;
import java.util.List;
import java.util.Optional;
import org.eclipse.microprofile.openapi.annotations.Operation;
import org.kornspur.api.kafka.PeerClient;
import org.kornspur.api.kafka.PeerEntry;
import org.kornspur.api.kafka.ProcessorsClient;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.RequiresPermission;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.stream.ChainPositions;
import org.kornspur.processors.stream.RegisterEntry;

/** What instances ask each other: only of what this instance holds itself, never passed on. */
@Path(PeerClient.ROOT)
@Produces(MediaType.APPLICATION_JSON)
public class InternalResource {
  @Inject ProcessorsClient processors;

  @GET
  @RequiresPermission(Permission.ASK_AS_INSTANCE)
  @Path(PeerClient.DOSSIER)
  @Operation(hidden = true)
  public List<PeerEntry> entries(@QueryParam("key") String subject) {
    return processors.entriesHere(Subject.parse(subject));
  }

  @GET
  @RequiresPermission(Permission.ASK_AS_INSTANCE)
  @Path(PeerClient.REPORTS)
  @Operation(hidden = true)
  public List<byte[]> reports(@QueryParam("key") String subject) {
    return processors.reportsHere(Subject.parse(subject));
  }

  @GET
  @RequiresPermission(Permission.ASK_AS_INSTANCE)
  @Path(PeerClient.REGISTER)
  @Operation(hidden = true)
  public Optional<RegisterEntry> register(@QueryParam("key") String factId) {
    return processors.registeredHere(factId);
  }

  @GET
  @RequiresPermission(Permission.ASK_AS_INSTANCE)
  @Path(PeerClient.POSITIONS)
  @Operation(hidden = true)
  public List<ChainPositions.Position> positions(@QueryParam("key") String factId) {
    return processors.positionsHere(factId);
  }
}
