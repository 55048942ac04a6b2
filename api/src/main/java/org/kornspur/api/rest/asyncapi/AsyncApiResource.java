package org.kornspur.api.rest.asyncapi;

import com.fasterxml.jackson.databind.JsonNode;
import jakarta.inject.Inject;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.MediaType;
import org.eclipse.microprofile.config.inject.ConfigProperty;
import org.eclipse.microprofile.openapi.annotations.Operation;
import org.kornspur.api.kafka.EngineSettings;
import org.kornspur.api.problem.AddressDetail;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.RequiresPermission;
import org.kornspur.api.security.visibility.SkipRedaction;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.problem.Given;

/**
 * What may be written to and read from topics, for everybody: it says nothing of the site's data.
 */
@Path(AsyncApiResource.ROOT)
@Produces(MediaType.APPLICATION_JSON)
public class AsyncApiResource {
  static final String ROOT = "/asyncapi";
  static final String SCHEMAS = "schemas";

  @Inject EngineSettings settings;

  @ConfigProperty(name = "quarkus.application.version")
  String version;

  @GET
  @SkipRedaction
  @RequiresPermission(Permission.READ_HELP)
  @Operation(hidden = true)
  public JsonNode document() {
    return new AsyncApiDocument(version, settings.brokerPort(), settings.registryPort()).json();
  }

  /**
   * @param name of a type of fact with the ending, as in GerminationTest.avsc
   */
  @GET
  @SkipRedaction
  @RequiresPermission(Permission.READ_HELP)
  @Path(SCHEMAS + "/{name}")
  @Operation(hidden = true)
  public String schema(@PathParam("name") String name) {
    return FactType.named(name.replaceFirst("\\.avsc$", ""))
        .filter(type -> !type.isAct() && name.endsWith(".avsc"))
        .map(type -> type.schema().toString(true))
        .orElseThrow(
            () ->
                ApiProblem.notFound(
                    new AddressDetail.NoResource(
                        Given.text(ROOT + "/" + SCHEMAS + "/" + name, false))));
  }
}
