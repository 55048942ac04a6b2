package org.kornspur.api.web;

import jakarta.inject.Inject;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.Response;
import java.net.URI;
import java.util.List;
import org.kornspur.api.security.CurrentCaller;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.RequiresPermission;
import org.kornspur.api.security.Role;

/**
 * Leads a browser from the bare address to where the person's work begins; on a site without data
 * to the first steps.
 */
@Path("/")
public class EntrancePage {
  /** Of several roles of one person the first decides. */
  private static final List<Role> CHIEF_FIRST =
      List.of(
          Role.QUALITY,
          Role.LABORATORY,
          Role.INSPECTOR,
          Role.MULTIPLIER,
          Role.AUDITOR,
          Role.ADMINISTRATOR);

  @Inject CurrentCaller caller;
  @Inject Navigation navigation;

  @GET
  @RequiresPermission(Permission.READ_PAGES)
  @Produces(MediaType.TEXT_HTML + ";charset=UTF-8;qs=0.9")
  public Response enter() {
    NavigationItem first =
        navigation.items().contains(NavigationItem.FIRST_STEPS)
            ? NavigationItem.FIRST_STEPS
            : CHIEF_FIRST.stream()
                .filter(caller.get().roles()::contains)
                .findFirst()
                .map(EntrancePage::of)
                .orElse(NavigationItem.HELP);
    return Response.seeOther(URI.create(first.href())).build();
  }

  /** Where the work of a role begins. */
  private static NavigationItem of(Role role) {
    return switch (role) {
      case QUALITY -> NavigationItem.DESK;
      case LABORATORY -> NavigationItem.LABORATORY;
      case INSPECTOR, MULTIPLIER -> NavigationItem.FIELD_BOOK;
      case AUDITOR -> NavigationItem.TRACE;
      case ADMINISTRATOR -> NavigationItem.PEOPLE;
      case MONITOR -> NavigationItem.HELP;
    };
  }
}
