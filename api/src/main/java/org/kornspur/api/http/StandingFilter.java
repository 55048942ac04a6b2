package org.kornspur.api.http;

import jakarta.ws.rs.DefaultValue;
import jakarta.ws.rs.QueryParam;
import java.util.List;
import java.util.Set;
import org.eclipse.microprofile.openapi.annotations.enums.SchemaType;
import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.eclipse.microprofile.openapi.annotations.parameters.Parameter;
import org.kornspur.api.readmodel.StandingQuery;
import org.kornspur.contract.Category;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.standing.ReleaseStep;
import org.kornspur.standing.StandingState;

/** What lists of crops and lots can be narrowed by. All given filters must hold. */
public final class StandingFilter {
  private static final int MOST_A_PAGE = 1000;

  @Parameter(description = "Any of FIT, NOT_FIT, EVIDENCE_OWED; separated by commas")
  @QueryParam("state")
  List<String> state;

  @Parameter(
      description =
          "Any of NONE, PROPOSED, RELEASED, SUSPENDED, CONDEMNED; separated by commas. Crops are NONE")
  @QueryParam("release")
  List<String> release;

  @Parameter(description = "Id of the hybrid")
  @QueryParam("hybrid")
  String hybrid;

  @Parameter(description = "Id of the component, or of the hybrid for F1 seed")
  @QueryParam("seedId")
  String seedId;

  @Parameter(
      description = "Category",
      schema = @Schema(enumeration = {"BREEDER", "PRE_BASIC", "BASIC", "CERTIFIED"}))
  @QueryParam("category")
  String category;

  @Parameter(description = "Year of harvest", schema = @Schema(type = SchemaType.INTEGER))
  @QueryParam("cropYear")
  String cropYear;

  @Parameter(description = "Id of the enterprise that grows the crop or declared the lot")
  @QueryParam("holder")
  String holder;

  @Parameter(description = "Id of the rulebook")
  @QueryParam("rulebook")
  String rulebook;

  @Parameter(
      description = "Gate that is not met, own or inherited",
      schema = @Schema(implementation = Gate.class))
  @QueryParam("notMet")
  String notMet;

  @Parameter(
      description = "Gate that evidence is owed for, own or inherited",
      schema = @Schema(implementation = Gate.class))
  @QueryParam("owed")
  String owed;

  @Parameter(description = "Beginning of the id, in any case")
  @QueryParam("id")
  String id;

  @Parameter(
      description =
          "worst: not fit, evidence owed, fit, within each by id; id: by id; store: most in store"
              + " first; changed: judged last first",
      schema = @Schema(enumeration = {"worst", "id", "store", "changed"}))
  @DefaultValue("worst")
  @QueryParam("sort")
  String sort;

  @Parameter(
      description = "Number of the page, from 1",
      schema = @Schema(type = SchemaType.INTEGER))
  @DefaultValue("1")
  @QueryParam("page")
  String page;

  @Parameter(
      description = "Entries a page, at most 1000",
      schema = @Schema(type = SchemaType.INTEGER))
  @DefaultValue("50")
  @QueryParam("size")
  String size;

  /** The question that the parameters make; see {@link StandingQuery}. */
  public StandingQuery query(Set<Subject.Kind> kinds, boolean owing) {
    return query(kinds, owing, new Parameters());
  }

  /** The same, with what is wrong answered as {@code parameters} does. */
  public StandingQuery query(Set<Subject.Kind> kinds, boolean owing, Parameters parameters) {
    StandingQuery query =
        new StandingQuery(
            kinds,
            parameters.any("state", state, StandingState.class),
            parameters.any("release", release, ReleaseStep.class),
            parameters.id("hybrid", hybrid),
            parameters.id("seedId", seedId),
            parameters.one("category", category, Category.class).map(Category::name),
            parameters.whole("cropYear", cropYear, 1990, 2100),
            parameters.id("holder", holder),
            parameters.id("rulebook", rulebook),
            parameters.one("notMet", notMet, Gate.class).map(Gate::name),
            parameters.one("owed", owed, Gate.class).map(Gate::name),
            owing,
            parameters.id("id", id),
            parameters
                .one("sort", sort, StandingQuery.Order.class)
                .orElse(StandingQuery.Order.WORST),
            parameters.page(page),
            parameters.whole("size", size, 50, 1, MOST_A_PAGE));
    parameters.check();
    return query;
  }
}
