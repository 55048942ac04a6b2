package org.kornspur.api.resource;

import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.MediaType;
import java.util.List;
import org.eclipse.microprofile.openapi.annotations.Operation;
import org.kornspur.api.access.Action;
import org.kornspur.api.access.Needs;
import org.kornspur.api.view.Addresses;

/** The way in: what is here. */
@Path("/")
public class IndexResource {

  /** An address and what it gives. */
  public record Place(String href, String what) {}

  private static final List<Place> PLACES =
      List.of(
          new Place(Addresses.ROOT + "/lots", "Lots of seed, worst first"),
          new Place(Addresses.ROOT + "/crops", "Seed crops, worst first"),
          new Place(Addresses.ROOT + "/owed", "What evidence is still owed"),
          new Place(Addresses.ROOT + "/quarantine", "Refused input"),
          new Place(Addresses.ROOT + "/changes", "Live stream of standing changes"),
          new Place(Addresses.ROOT + "/hybrids", "Hybrids in production"),
          new Place(Addresses.ROOT + "/rulebooks", "Rulebooks with every limit and its source"),
          new Place(Addresses.ROOT + "/fact-types", "What facts can be brought to /api/v1/facts"),
          new Place(
              Addresses.ROOT + "/advice/calibration",
              "Advice beside the gates: forecasts of hybridity against results"),
          new Place("/problems", "What each problem document means"),
          new Place("/openapi", "The interface as OpenAPI"),
          new Place("/health", "Whether it lives and is ready"),
          new Place("/metrics", "Metrics for Prometheus"));

  @GET
  @Needs(Action.READ_INTERFACE)
  @Produces(MediaType.APPLICATION_JSON)
  @Operation(operationId = "listPlaces", summary = "What is here")
  public List<Place> json() {
    return PLACES;
  }
}
