package org.kornspur.api.rest;

import jakarta.inject.Inject;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.Response;
import java.time.Instant;
import org.eclipse.microprofile.openapi.annotations.Operation;
import org.eclipse.microprofile.openapi.annotations.responses.APIResponse;
import org.eclipse.microprofile.openapi.annotations.tags.Tag;
import org.kornspur.api.kafka.Backup;
import org.kornspur.api.kafka.ProcessorsClient;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.RequiresPermission;
import org.kornspur.api.text.Addresses;

/** Copies of the whole site while it runs. */
@Path(Addresses.ROOT + "/backups")
@Produces(MediaType.APPLICATION_JSON)
@Tag(name = "Operations")
public class BackupResource {
  @Inject ProcessorsClient processors;

  /**
   * What was made.
   *
   * @param folder on the server
   */
  public record BackupView(String folder, Instant madeAt, long bytes) {}

  @POST
  @RequiresPermission(Permission.BACK_UP)
  @Operation(
      operationId = "makeBackup",
      summary = "Copy the data folder into the backup folder of the server",
      description =
          "The processors are stopped while the files are copied, and the site is not ready; facts"
              + " are taken.")
  @APIResponse(responseCode = "201", description = "The copy can be used as data folder")
  @APIResponse(responseCode = "409", ref = "#/components/responses/Problem")
  public Response make() throws Exception {
    Backup.Made made = processors.backUp();
    return Response.status(Response.Status.CREATED)
        .entity(new BackupView(made.folder().toString(), made.madeAt(), made.bytes()))
        .build();
  }
}
