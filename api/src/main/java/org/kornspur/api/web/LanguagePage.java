package org.kornspur.api.web;

import jakarta.ws.rs.DefaultValue;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.NewCookie;
import jakarta.ws.rs.core.Response;
import java.net.URI;
import java.util.regex.Pattern;
import org.kornspur.api.problem.AddressDetail;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.RequiresPermission;
import org.kornspur.api.text.Language;

/** Remembers the language that somebody chose, and leads back. */
@Path("/language")
public class LanguagePage {

  /** Addresses of this site alone: no host, no scheme, no second slash, no backslash. */
  private static final Pattern OWN_ADDRESS = Pattern.compile("/(?![/\\\\])[^\\\\\\s]*");

  private static final int YEAR_SECONDS = 365 * 24 * 3600;

  @GET
  @RequiresPermission(Permission.LOG_IN)
  @Path("{tag}")
  public Response choose(
      @PathParam("tag") String tag, @DefaultValue("/") @QueryParam("back") String back) {
    Language language =
        Language.of(tag).orElseThrow(() -> ApiProblem.notFound(new AddressDetail.NoLanguage()));
    NewCookie cookie =
        new NewCookie.Builder(Language.COOKIE)
            .value(language.tag())
            .path("/")
            .maxAge(YEAR_SECONDS)
            .httpOnly(true)
            .sameSite(NewCookie.SameSite.LAX)
            .build();
    return Response.seeOther(URI.create(own(back))).cookie(cookie).build();
  }

  private static String own(String back) {
    if (!OWN_ADDRESS.matcher(back).matches()) {
      return "/";
    }
    try {
      return URI.create(back).toString();
    } catch (IllegalArgumentException notAnAddress) {
      return "/";
    }
  }
}
