package org.kornspur.api.rest;

import com.fasterxml.jackson.annotation.JsonInclude;
import com.fasterxml.jackson.databind.ObjectMapper;
import jakarta.inject.Inject;
import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.DELETE;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.PUT;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.HttpHeaders;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.Response;
import java.io.IOException;
import java.util.List;
import java.util.Set;
import org.eclipse.microprofile.openapi.annotations.Operation;
import org.eclipse.microprofile.openapi.annotations.media.Content;
import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.eclipse.microprofile.openapi.annotations.parameters.RequestBody;
import org.eclipse.microprofile.openapi.annotations.responses.APIResponse;
import org.eclipse.microprofile.openapi.annotations.tags.Tag;
import org.kornspur.api.command.people.PeopleCommands;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.RequiresPermission;
import org.kornspur.api.security.Role;
import org.kornspur.api.security.people.AccountBody;
import org.kornspur.api.security.people.People;
import org.kornspur.api.security.people.Person;

/** The people of the people file. Nobody is deleted: facts name them. */
@Path("/api/v1/people")
@Produces(MediaType.APPLICATION_JSON)
@Tag(name = "People")
public class PeopleResource {
  private static final String ISSUED =
      "An issued password is good for nothing but setting another: POST /api/v1/account/password,"
          + " or the page /login.";

  @Inject People people;
  @Inject PeopleCommands commands;
  @Inject ObjectMapper json;

  /** A person, without anything of the password. */
  @Schema(description = "A person")
  public record PersonView(
      @Schema(examples = "inspector-04") String personId,
      String printedName,
      Set<Role> roles,
      @Schema(nullable = true, description = "Whom the person works for; null where bound to none")
          String enterpriseId,
      boolean disabled,
      @Schema(
              nullable = true,
              description =
                  "Administrator who issued the password; the person signs nothing until somebody"
                      + " else confirms that the person has set another. Null where nobody has to")
          String issuedBy) {

    static PersonView of(Person person) {
      return new PersonView(
          person.personId(),
          person.printedName(),
          person.roles(),
          person.enterpriseId().orElse(null),
          person.disabled(),
          person.issuedBy().orElse(null));
    }
  }

  @Schema(description = "A person with a password that is shown this once")
  @JsonInclude(JsonInclude.Include.NON_NULL)
  public record PersonWithPassword(PersonView person, String password) {

    @Override
    public String toString() {
      return person.personId();
    }
  }

  @Schema(description = "What is told of a person; personId only for a new one")
  public record PersonRequest(
      String personId, String printedName, Set<Role> roles, String enterpriseId) {}

  @GET
  @RequiresPermission(Permission.READ_PEOPLE)
  @Operation(operationId = "listPeople", summary = "Everybody, disabled or not")
  @APIResponse(responseCode = "200", description = "The people")
  @APIResponse(responseCode = "409", ref = "#/components/responses/Problem")
  public List<PersonView> list() {
    return people.all().stream().map(PersonView::of).toList();
  }

  @GET
  @Path("{id}")
  @RequiresPermission(Permission.READ_PEOPLE)
  @Operation(operationId = "getPerson", summary = "One person")
  @APIResponse(responseCode = "200", description = "The person")
  public PersonView get(@PathParam("id") String id) {
    return PersonView.of(people.get(id));
  }

  @POST
  @RequiresPermission(Permission.MANAGE_PEOPLE)
  @Consumes(MediaType.APPLICATION_JSON)
  @Operation(
      operationId = "addPerson",
      summary = "Add a person; the answer shows an issued password, this once",
      description = ISSUED)
  @RequestBody(content = @Content(schema = @Schema(implementation = PersonRequest.class)))
  @APIResponse(
      responseCode = "201",
      description = "Added",
      content = @Content(schema = @Schema(implementation = PersonWithPassword.class)))
  @APIResponse(responseCode = "409", ref = "#/components/responses/Problem")
  public Response add(byte[] body) throws IOException {
    People.Made made = commands.add(AccountBody.read(json, body));
    return shownOnce(Response.status(Response.Status.CREATED), made);
  }

  @PUT
  @Path("{id}")
  @RequiresPermission(Permission.MANAGE_PEOPLE)
  @Consumes(MediaType.APPLICATION_JSON)
  @Operation(
      operationId = "changePerson",
      summary = "Another name, other roles or another enterprise; ends the person's log-ins")
  @RequestBody(content = @Content(schema = @Schema(implementation = PersonRequest.class)))
  @APIResponse(responseCode = "200", description = "The person as changed")
  @APIResponse(responseCode = "409", ref = "#/components/responses/Problem")
  public PersonView change(@PathParam("id") String id, byte[] body) throws IOException {
    return PersonView.of(commands.change(id, AccountBody.read(json, body)));
  }

  @POST
  @Path("{id}/disable")
  @RequiresPermission(Permission.MANAGE_PEOPLE)
  @Operation(operationId = "disablePerson", summary = "Let a person come in no more")
  @APIResponse(responseCode = "200", description = "The person as changed")
  @APIResponse(responseCode = "409", ref = "#/components/responses/Problem")
  public PersonView disable(@PathParam("id") String id) {
    return PersonView.of(commands.disable(id, true));
  }

  @POST
  @Path("{id}/enable")
  @RequiresPermission(Permission.MANAGE_PEOPLE)
  @Operation(operationId = "enablePerson", summary = "Let a person come in again")
  @APIResponse(responseCode = "200", description = "The person as changed")
  public PersonView enable(@PathParam("id") String id) {
    return PersonView.of(commands.disable(id, false));
  }

  @POST
  @Path("{id}/password")
  @RequiresPermission(Permission.MANAGE_PEOPLE)
  @Operation(
      operationId = "renewPassword",
      summary = "Issue a new password for a person; the answer shows it, this once",
      description = ISSUED)
  @APIResponse(
      responseCode = "200",
      description = "The person and the password",
      content = @Content(schema = @Schema(implementation = PersonWithPassword.class)))
  public Response renewPassword(@PathParam("id") String id) {
    return shownOnce(Response.ok(), commands.renewPassword(id));
  }

  @POST
  @Path("{id}/confirm")
  @RequiresPermission(Permission.CONFIRM_PEOPLE)
  @Operation(
      operationId = "confirmPerson",
      summary = "Confirm that a person has set the own password, so that the person may sign",
      description =
          "By somebody else than the person and the administrator who issued the password, who asked"
              + " the person in another way.")
  @APIResponse(responseCode = "204", description = "Confirmed, or nobody had to")
  @APIResponse(responseCode = "409", ref = "#/components/responses/Problem")
  public Response confirm(@PathParam("id") String id) {
    commands.confirm(id);
    return Response.noContent().build();
  }

  @DELETE
  @Path("{id}/name")
  @RequiresPermission(Permission.MANAGE_PEOPLE)
  @Operation(
      operationId = "forgetName",
      summary = "Forget the printed name of a person who signed",
      description =
          "What the person signed stays, under the id alone, and still verifies. It does not touch"
              + " the people file; a person who may still come in and signs again is kept again."
              + " Who had it forgotten and when stays in the journal of people, without the name.")
  @APIResponse(responseCode = "204", description = "Forgotten, or there was nothing to forget")
  public Response forget(@PathParam("id") String id) {
    commands.forgetName(id);
    return Response.noContent().build();
  }

  private static Response shownOnce(Response.ResponseBuilder answer, People.Made made) {
    return answer
        .entity(new PersonWithPassword(PersonView.of(made.person()), made.password()))
        .header(HttpHeaders.CACHE_CONTROL, "no-store")
        .build();
  }
}
