package org.kornspur.api.rest;

import jakarta.inject.Inject;
import jakarta.ws.rs.BeanParam;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.MediaType;
import java.util.Set;
import org.eclipse.microprofile.openapi.annotations.Operation;
import org.eclipse.microprofile.openapi.annotations.responses.APIResponse;
import org.eclipse.microprofile.openapi.annotations.tags.Tag;
import org.kornspur.api.http.StandingFilter;
import org.kornspur.api.query.QueryService;
import org.kornspur.api.query.view.OwedView;
import org.kornspur.api.query.view.PageView;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.RequiresPermission;
import org.kornspur.api.text.Addresses;
import org.kornspur.ingest.contract.Subject;

/** What evidence is still owed, over all crops and lots. */
@Path(Addresses.ROOT + "/owed")
@Produces(MediaType.APPLICATION_JSON)
@Tag(name = "Owed")
public class OwedResource {
  @Inject QueryService queries;

  @GET
  @RequiresPermission(Permission.READ_OWED)
  @Operation(
      operationId = "listOwed",
      summary = "What is still to be brought, by crop and lot",
      description = "Own evidence first, then what ancestors owe. Filters as for lots.")
  @APIResponse(responseCode = "200", description = "One page")
  public PageView<OwedView> list(@BeanParam StandingFilter filter) {
    return queries.owed(filter.query(Set.of(Subject.Kind.LOT, Subject.Kind.CROP), true));
  }
}
