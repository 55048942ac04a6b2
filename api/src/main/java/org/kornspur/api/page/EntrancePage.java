package org.kornspur.api.page;

import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.Response;
import java.net.URI;
import org.eclipse.microprofile.openapi.annotations.Operation;
import org.kornspur.api.access.Action;
import org.kornspur.api.access.Needs;

/** Leads a browser from the bare address to where the day's work begins. */
@Path("/")
public class EntrancePage {

  @GET
  @Needs(Action.READ_PAGES)
  @Produces(MediaType.TEXT_HTML + ";charset=UTF-8;qs=1.1")
  @Operation(hidden = true)
  public Response enter() {
    return Response.seeOther(URI.create(Room.DESK.href())).build();
  }
}
