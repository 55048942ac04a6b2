package org.kornspur.api.rest;

import jakarta.inject.Inject;
import jakarta.ws.rs.DefaultValue;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.MediaType;
import java.util.List;
import java.util.Optional;
import org.eclipse.microprofile.openapi.annotations.Operation;
import org.eclipse.microprofile.openapi.annotations.enums.SchemaType;
import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.eclipse.microprofile.openapi.annotations.parameters.Parameter;
import org.eclipse.microprofile.openapi.annotations.responses.APIResponse;
import org.eclipse.microprofile.openapi.annotations.tags.Tag;
import org.kornspur.api.http.Parameters;
import org.kornspur.api.readmodel.ResultPage;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.RequiresPermission;
import org.kornspur.api.security.people.JournalLine;
import org.kornspur.api.security.people.JournalReading;
import org.kornspur.api.security.people.People;
import org.kornspur.api.text.Addresses;

/** Who changed which person, when and how. */
@Path(Addresses.ROOT + "/people-journal")
@Produces(MediaType.APPLICATION_JSON)
@Tag(name = "People")
public class PeopleJournalResource {
  @Inject People people;

  /** Changes of people, and whether their record is whole. */
  @Schema(description = "Changes of people, newest first, and whether their record is whole")
  public record JournalView(
      @Schema(description = "Whether every line is as it was written and where it was")
          boolean isWhole,
      @Schema(
              nullable = true,
              description = "First line that is not; null where the record is whole")
          Long breaksAtLine,
      @Schema(nullable = true, description = "How that shows; null where the record is whole")
          String breakReason,
      @Schema(
              description =
                  "SHA-256 of the last line. Note it elsewhere: it shows later whether all up to"
                      + " it was written again")
          String head,
      int page,
      int size,
      @Schema(description = "Changes on all pages") int total,
      List<JournalLine> items) {}

  @GET
  @RequiresPermission(Permission.READ_PEOPLE)
  @Operation(
      operationId = "listChangesOfPeople",
      summary = "Who changed which person, when and how, newest first",
      description =
          "Both values of roles, enterprise and disabled; of a printed name and a password only"
              + " that they changed. The whole record is checked at every request.")
  @APIResponse(responseCode = "200", description = "One page")
  public JournalView list(
      @Parameter(description = "Changes of this person alone") @QueryParam("person") String person,
      @Parameter(schema = @Schema(type = SchemaType.INTEGER)) @DefaultValue("1") @QueryParam("page")
          String page,
      @Parameter(schema = @Schema(type = SchemaType.INTEGER))
          @DefaultValue("50")
          @QueryParam("size")
          String size) {
    Parameters parameters = new Parameters();
    Optional<String> personId = parameters.id("person", person);
    int pageNumber = parameters.page(page);
    int pageSize = parameters.whole("size", size, 50, 1, 1000);
    parameters.check();
    JournalReading journal = people.journal();
    ResultPage<JournalLine> found =
        ResultPage.of(journal.newestFirst(personId), pageNumber, pageSize);
    return new JournalView(
        journal.broken().isEmpty(),
        journal.broken().map(JournalReading.Break::line).orElse(null),
        journal.broken().map(JournalReading.Break::reason).orElse(null),
        journal.head(),
        found.page(),
        found.size(),
        found.total(),
        found.items());
  }
}
