package org.kornspur.api.http;

import jakarta.ws.rs.DefaultValue;
import jakarta.ws.rs.QueryParam;
import java.util.List;
import java.util.Set;
import org.eclipse.microprofile.openapi.annotations.enums.SchemaType;
import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.eclipse.microprofile.openapi.annotations.parameters.Parameter;
import org.kornspur.contract.QuarantineState;

/** What the list of refused input can be narrowed by. */
public final class QuarantineFilter {
  private static final int MOST_A_PAGE = 1000;

  @Parameter(description = "Any of HELD, REPLAYED, DISCARDED; separated by commas")
  @QueryParam("state")
  List<String> state;

  @Parameter(schema = @Schema(type = SchemaType.INTEGER))
  @DefaultValue("1")
  @QueryParam("page")
  String page;

  @Parameter(schema = @Schema(type = SchemaType.INTEGER))
  @DefaultValue("50")
  @QueryParam("size")
  String size;

  /**
   * The parameters as values.
   *
   * @param states empty for all
   * @param page from 1
   */
  public record Query(Set<QuarantineState> states, int page, int size) {}

  /** What is asked for, with what is wrong answered as {@code parameters} does. */
  public Query query(Parameters parameters) {
    Query query =
        new Query(
            parameters.any("state", state, QuarantineState.class),
            parameters.page(page),
            parameters.whole("size", size, 50, 1, MOST_A_PAGE));
    parameters.check();
    return query;
  }
}
