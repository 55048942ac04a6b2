package org.kornspur.api.rest;

import jakarta.inject.Inject;
import jakarta.ws.rs.DELETE;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.core.Response;
import org.eclipse.microprofile.openapi.annotations.Operation;
import org.eclipse.microprofile.openapi.annotations.responses.APIResponse;
import org.eclipse.microprofile.openapi.annotations.tags.Tag;
import org.jboss.logging.Logger;
import org.kornspur.api.command.act.SignerNames;
import org.kornspur.api.security.CurrentCaller;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.RequiresPermission;
import org.kornspur.api.security.people.People;
import org.kornspur.api.security.people.PeopleChange;
import org.kornspur.api.text.Addresses;

/** The printed name of a person who signed, kept apart from what was signed. */
@Path(Addresses.ROOT + "/people/{id}/name")
@Tag(name = "People")
public class PersonNameResource {
  private static final Logger LOG = Logger.getLogger(PersonNameResource.class);

  @Inject SignerNames names;
  @Inject CurrentCaller caller;
  @Inject People people;

  @DELETE
  @RequiresPermission(Permission.MANAGE_PEOPLE)
  @Operation(
      operationId = "forgetName",
      summary = "Forget the printed name of a person who signed",
      description =
          "What the person signed stays, under the id alone, and still verifies. It does not touch"
              + " the people file; a person who may still come in and signs again is kept again. Who had it"
              + " forgotten and when stays in the journal of people, without the name.")
  @APIResponse(responseCode = "204", description = "Forgotten, or there was nothing to forget")
  @APIResponse(responseCode = "503", ref = "#/components/responses/Problem")
  public Response forget(@PathParam("id") String id) {
    // told before, so that nothing is forgotten without a trace
    people.note(PeopleChange.Kind.SIGNER_NAME_FORGOTTEN, id);
    try {
      names.forget(id);
    } catch (RuntimeException notConfirmed) {
      people.note(PeopleChange.Kind.FORGETTING_NOT_CONFIRMED, id);
      throw notConfirmed;
    }
    LOG.infof("%s had the printed name of person %s forgotten", caller.get().personId(), id);
    return Response.noContent().build();
  }
}
