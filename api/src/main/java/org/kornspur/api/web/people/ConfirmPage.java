package org.kornspur.api.web.people;

import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import jakarta.inject.Inject;
import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.Response;
import java.net.URI;
import java.util.List;
import org.kornspur.api.command.people.PeopleCommands;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.problem.ProblemKind;
import org.kornspur.api.security.CurrentCaller;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.RequiresPermission;
import org.kornspur.api.security.login.FormFields;
import org.kornspur.api.security.login.ReAuthentication;
import org.kornspur.api.security.people.People;
import org.kornspur.api.security.people.Person;
import org.kornspur.api.security.visibility.SkipRedaction;
import org.kornspur.api.web.NavigationItem;
import org.kornspur.api.web.PageFrame;
import org.kornspur.api.web.PageFrames;

/** Where somebody else confirms that a person with a new password is the person. */
@Path(ConfirmPage.ROOT)
@Produces(MediaType.TEXT_HTML + ";charset=UTF-8")
public class ConfirmPage {
  static final String ROOT = PeoplePage.ROOT + "/confirm";

  @Inject PageFrames pages;
  @Inject People people;
  @Inject PeopleCommands commands;
  @Inject CurrentCaller caller;
  @Inject ReAuthentication reAuthentication;

  /**
   * A person who is to be confirmed.
   *
   * @param issuerId who issued the password
   * @param isIssued whether the person has not set an own one yet
   * @param mayBeByCaller whether who asks may confirm it
   */
  public record Waiting(
      String personId,
      String printedName,
      String issuerId,
      boolean isIssued,
      boolean mayBeByCaller) {}

  @CheckedTemplate(basePath = "web/people")
  static class Templates {
    static native TemplateInstance confirm(
        PageFrame page, List<Waiting> waiting, List<String> refusals, boolean done);
  }

  /**
   * @param done whether somebody was confirmed a moment ago
   */
  @GET
  @SkipRedaction
  @RequiresPermission(Permission.CONFIRM_PEOPLE)
  public String waiting(@QueryParam("done") String done) {
    return show(List.of(), "yes".equals(done));
  }

  @POST
  @Path("{id}")
  @SkipRedaction
  @RequiresPermission(Permission.CONFIRM_PEOPLE)
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  public Response confirm(@PathParam("id") String id, byte[] body) {
    FormFields form = FormFields.of(body);
    try {
      reAuthentication.require(caller.get(), form.first("password"));
      commands.confirm(id);
      return Response.seeOther(URI.create(ROOT + "?done=yes")).build();
    } catch (ApiProblem refused) {
      List<String> why =
          refused.document().kind() == ProblemKind.FRESH_LOG_IN_NEEDED
              ? List.of(pages.words().texts("people").of("notProved"))
              : pages.sentences(refused);
      return Response.status(refused.document().status()).entity(show(why, false)).build();
    }
  }

  private String show(List<String> refusals, boolean done) {
    String me = caller.get().personId();
    List<Waiting> waiting =
        people.all().stream()
            .filter(person -> person.issuedBy().isPresent() && !person.disabled())
            .map(person -> waiting(person, me))
            .toList();
    return pages.render(
        Templates.confirm(pages.around(NavigationItem.PEOPLE), waiting, refusals, done));
  }

  private static Waiting waiting(Person person, String me) {
    String issuer = person.issuedBy().orElseThrow();
    return new Waiting(
        person.personId(),
        person.printedName(),
        issuer,
        person.issued(),
        !me.equals(issuer) && !me.equals(person.personId()));
  }
}
