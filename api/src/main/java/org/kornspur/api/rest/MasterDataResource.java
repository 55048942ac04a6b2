package org.kornspur.api.rest;

import jakarta.inject.Inject;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.MediaType;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.eclipse.microprofile.openapi.annotations.Operation;
import org.eclipse.microprofile.openapi.annotations.responses.APIResponse;
import org.eclipse.microprofile.openapi.annotations.tags.Tag;
import org.kornspur.api.query.FactTimes;
import org.kornspur.api.query.QueryService;
import org.kornspur.api.query.VisibleData;
import org.kornspur.api.query.view.DossierView;
import org.kornspur.api.query.view.HybridView;
import org.kornspur.api.readmodel.StandingIndexRow;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.RequiresPermission;
import org.kornspur.api.text.Addresses;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.standing.StandingState;

/** Hybrids, enterprises and pollen sources: what crops and lots refer to. */
@Path(Addresses.ROOT)
@Produces(MediaType.APPLICATION_JSON)
@Tag(name = "Master data")
public class MasterDataResource {
  @Inject QueryService queries;
  @Inject VisibleData data;

  @GET
  @RequiresPermission(Permission.READ_MASTER_DATA)
  @Path("hybrids")
  @Operation(
      operationId = "listHybrids",
      summary = "Every hybrid that a crop or lot is made of, with their states")
  public List<HybridView> hybrids() {
    Map<String, HybridView> byHybrid = new TreeMap<>();
    data.matching(row -> row.material().isPresent())
        .forEach(row -> count(row, row.material().orElseThrow().getHybridId(), byHybrid));
    return List.copyOf(byHybrid.values());
  }

  private static void count(
      StandingIndexRow row, String hybridId, Map<String, HybridView> byHybrid) {
    HybridView hybrid =
        byHybrid.computeIfAbsent(
            hybridId,
            id ->
                new HybridView(
                    id,
                    new EnumMap<>(StandingState.class),
                    new EnumMap<>(StandingState.class),
                    Addresses.of(Subject.hybrid(id))));
    (row.subject().kind() == Subject.Kind.CROP ? hybrid.crops() : hybrid.lots())
        .merge(row.state(), 1, Integer::sum);
  }

  @GET
  @RequiresPermission(Permission.READ_MASTER_DATA)
  @Path("hybrids/{id}")
  @Operation(operationId = "getHybrid", summary = "The facts that declare a hybrid")
  @APIResponse(responseCode = "200", description = "The facts")
  public DossierView hybrid(@PathParam("id") String id) {
    return queries.dossier(Subject.hybrid(id), FactTimes.Range.ALL);
  }

  @GET
  @RequiresPermission(Permission.READ_MASTER_DATA)
  @Path("enterprises/{id}")
  @Operation(operationId = "getEnterprise", summary = "The facts that declare an enterprise")
  @APIResponse(responseCode = "200", description = "The facts")
  public DossierView enterprise(@PathParam("id") String id) {
    return queries.dossier(Subject.enterprise(id), FactTimes.Range.ALL);
  }

  @GET
  @RequiresPermission(Permission.READ_MASTER_DATA)
  @Path("pollen-sources/{id}")
  @Operation(operationId = "getPollenSource", summary = "The facts that tell of a pollen source")
  @APIResponse(responseCode = "200", description = "The facts")
  public DossierView pollenSource(@PathParam("id") String id) {
    return queries.dossier(Subject.source(id), FactTimes.Range.ALL);
  }
}
