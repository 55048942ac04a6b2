package org.kornspur.api.web;

import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import jakarta.inject.Inject;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.MediaType;
import java.util.List;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.RequiresPermission;
import org.kornspur.api.security.people.DemoPeople;
import org.kornspur.api.security.people.People;

/** Where people say who they are. */
@Path("/login")
public class SignInPage {
  @Inject PageFrames pages;
  @Inject People people;

  @CheckedTemplate(basePath = "web")
  static class Templates {
    static native TemplateInstance login(
        PageFrame page, String next, String why, List<DemoPeople> demo, String chosen);
  }

  /**
   * @param next where to go after it; the log-in takes it only if it lies here
   * @param why "wrong" or "wait" where user and password were not taken, "own" where the password
   *     was issued and another is to be set
   * @param chosen a person of the demo
   */
  @GET
  @RequiresPermission(Permission.LOG_IN)
  @Produces(MediaType.TEXT_HTML + ";charset=UTF-8")
  public String form(
      @QueryParam("next") String next,
      @QueryParam("why") String why,
      @QueryParam("as") String chosen) {
    List<DemoPeople> demo = people.demo();
    return pages.render(
        Templates.login(
            pages.around(NavigationItem.ELSEWHERE),
            next == null ? "/" : next,
            why == null ? "" : why,
            demo,
            demo.stream()
                .map(DemoPeople::personId)
                .filter(id -> id.equals(chosen))
                .findFirst()
                .orElse("")));
  }
}
