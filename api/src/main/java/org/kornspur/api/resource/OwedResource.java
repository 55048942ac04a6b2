package org.kornspur.api.resource;

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
import org.kornspur.api.access.Permission;
import org.kornspur.api.access.RequiresPermission;
import org.kornspur.api.view.Addresses;
import org.kornspur.api.view.OwedView;
import org.kornspur.api.view.PageView;
import org.kornspur.ingest.contract.Subject;

/** What evidence is still owed, over all crops and lots. */
@Path(Addresses.ROOT + "/owed")
@Produces(MediaType.APPLICATION_JSON)
@Tag(name = "Owed")
public class OwedResource {
  private final Answers answers;

  @Inject
  public OwedResource(Answers answers) {
    this.answers = answers;
  }

  @GET
  @RequiresPermission(Permission.READ_OWED)
  @Operation(
      operationId = "listOwed",
      summary = "What is still to be brought, by crop and lot",
      description = "Own evidence first, then what ancestors owe. Filters as for lots.")
  @APIResponse(responseCode = "200", description = "One page")
  @APIResponse(responseCode = "400", ref = "#/components/responses/Problem")
  public PageView<OwedView> list(@BeanParam StandingFilter filter) {
    return answers.owed(filter.query(Set.of(Subject.Kind.LOT, Subject.Kind.CROP), true));
  }
}
