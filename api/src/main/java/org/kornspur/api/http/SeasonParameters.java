package org.kornspur.api.http;

import jakarta.ws.rs.QueryParam;
import org.eclipse.microprofile.openapi.annotations.parameters.Parameter;
import org.kornspur.api.readmodel.SeasonFilter;

/** What a line of seasons can be narrowed by. All given filters must hold. */
public final class SeasonParameters {
  @Parameter(description = "Id of the hybrid")
  @QueryParam("hybrid")
  String hybrid;

  @Parameter(description = "Id of the component, or of the hybrid for F1 seed")
  @QueryParam("seedId")
  String seedId;

  @Parameter(description = "Id of the enterprise that grows the crop or declared the lot")
  @QueryParam("holder")
  String holder;

  /** The filter, with what is wrong answered as {@code parameters} does. */
  public SeasonFilter filter(Parameters parameters) {
    SeasonFilter filter =
        new SeasonFilter(
            parameters.id("hybrid", hybrid),
            parameters.id("seedId", seedId),
            parameters.id("holder", holder));
    parameters.check();
    return filter;
  }
}
