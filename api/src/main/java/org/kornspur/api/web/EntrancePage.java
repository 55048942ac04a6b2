package org.kornspur.api.web;

import jakarta.inject.Inject;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.Response;
import java.net.URI;
import java.util.Arrays;
import org.eclipse.microprofile.openapi.annotations.Operation;
import org.kornspur.api.security.CurrentCaller;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.RequiresPermission;

/** Leads a browser from the bare address to where the day's work begins. */
@Path("/")
public class EntrancePage {
  @Inject CurrentCaller caller;

  @GET
  @RequiresPermission(Permission.READ_PAGES)
  @Produces(MediaType.TEXT_HTML + ";charset=UTF-8;qs=0.9")
  @Operation(hidden = true)
  public Response enter() {
    NavigationItem first =
        Arrays.stream(NavigationItem.values())
            .filter(item -> !item.href().isEmpty() && caller.get().may(item.needs()))
            .findFirst()
            .orElse(NavigationItem.ELSEWHERE);
    return Response.seeOther(
            URI.create(first == NavigationItem.ELSEWHERE ? "/problems" : first.href()))
        .build();
  }
}
