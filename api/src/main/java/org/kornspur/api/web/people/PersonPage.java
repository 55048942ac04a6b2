package org.kornspur.api.web.people;

import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
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
import java.io.IOException;
import java.net.URI;
import java.util.List;
import java.util.SortedMap;
import java.util.function.Supplier;
import org.kornspur.api.command.people.PeopleCommands;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.problem.ProblemKind;
import org.kornspur.api.readmodel.FactReadModel;
import org.kornspur.api.security.CurrentCaller;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.RequiresPermission;
import org.kornspur.api.security.login.FormFields;
import org.kornspur.api.security.login.ReAuthentication;
import org.kornspur.api.security.people.AccountBody;
import org.kornspur.api.security.people.People;
import org.kornspur.api.security.visibility.SkipRedaction;
import org.kornspur.api.text.PageTexts;
import org.kornspur.api.web.NavigationItem;
import org.kornspur.api.web.PageFrame;
import org.kornspur.api.web.PageFrames;

/**
 * Where a person is added or changed. Who does it gives the own password again each time, because
 * with a log-in that was left open somebody could give themselves any role.
 */
@Path(PeoplePage.ROOT)
@Produces(MediaType.TEXT_HTML + ";charset=UTF-8")
public class PersonPage {
  @Inject PageFrames pages;
  @Inject People people;
  @Inject PeopleCommands commands;
  @Inject CurrentCaller caller;
  @Inject ReAuthentication reAuthentication;
  @Inject FactReadModel facts;
  @Inject ObjectMapper json;

  @CheckedTemplate(basePath = "web/people")
  static class Templates {
    static native TemplateInstance person(
        PageFrame page, PersonFormView sheet, SortedMap<String, String> enterprises, String done);

    static native TemplateInstance password(PageFrame page, PersonRow person, String password);
  }

  @GET
  @Path("new")
  @SkipRedaction
  @RequiresPermission(Permission.MANAGE_PEOPLE)
  public String empty() {
    return show(PersonFormView.empty(), "");
  }

  @POST
  @Path("new")
  @RequiresPermission(Permission.MANAGE_PEOPLE)
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  public Response add(byte[] body) throws IOException {
    FormFields form = FormFields.of(body);
    AccountBody asked = asked(form);
    try {
      reauthenticate(form);
      return shownOnce(commands.add(asked));
    } catch (ApiProblem refused) {
      return refused(refused, PersonFormView.empty().refused(form, sentences(refused)));
    }
  }

  /**
   * @param done what was done to the person a moment ago; empty or unknown where nothing was
   */
  @GET
  @Path("person/{id}")
  @SkipRedaction
  @RequiresPermission(Permission.MANAGE_PEOPLE)
  public String person(@PathParam("id") String id, @QueryParam("done") String done) {
    boolean isKnown = done != null && texts().has("done." + done);
    return show(PersonFormView.of(people.get(id)), isKnown ? done : "");
  }

  @POST
  @Path("person/{id}")
  @RequiresPermission(Permission.MANAGE_PEOPLE)
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  public Response change(@PathParam("id") String id, byte[] body) throws IOException {
    FormFields form = FormFields.of(body);
    PersonFormView before = PersonFormView.of(people.get(id));
    AccountBody asked = asked(form);
    try {
      reauthenticate(form);
      commands.change(id, asked);
      return seeOther(id, "changed");
    } catch (ApiProblem refused) {
      return refused(refused, before.refused(form, sentences(refused)));
    }
  }

  @POST
  @Path("person/{id}/disable")
  @RequiresPermission(Permission.MANAGE_PEOPLE)
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  public Response disable(@PathParam("id") String id, byte[] body) {
    return setDisabled(id, body, true, "blocked");
  }

  @POST
  @Path("person/{id}/enable")
  @RequiresPermission(Permission.MANAGE_PEOPLE)
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  public Response enable(@PathParam("id") String id, byte[] body) {
    return setDisabled(id, body, false, "unblocked");
  }

  @POST
  @Path("person/{id}/password")
  @RequiresPermission(Permission.MANAGE_PEOPLE)
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  public Response renewPassword(@PathParam("id") String id, byte[] body) {
    return done(id, body, () -> shownOnce(commands.renewPassword(id)));
  }

  @POST
  @Path("person/{id}/forget")
  @RequiresPermission(Permission.MANAGE_PEOPLE)
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  public Response forgetName(@PathParam("id") String id, byte[] body) {
    return done(
        id,
        body,
        () -> {
          commands.forgetName(id);
          return seeOther(id, "forgotten");
        });
  }

  private Response setDisabled(String id, byte[] body, boolean disabled, String done) {
    return done(
        id,
        body,
        () -> {
          commands.disable(id, disabled);
          return seeOther(id, done);
        });
  }

  private Response done(String id, byte[] body, Supplier<Response> act) {
    FormFields form = FormFields.of(body);
    PersonFormView before = PersonFormView.of(people.get(id));
    try {
      reauthenticate(form);
      return act.get();
    } catch (ApiProblem refused) {
      return refused(refused, before.refused(sentences(refused)));
    }
  }

  private void reauthenticate(FormFields form) {
    reAuthentication.require(caller.get(), form.first("password"));
  }

  /** The same document as at the interface; what is left empty is not in it. */
  private AccountBody asked(FormFields form) throws IOException {
    ObjectNode asked = json.createObjectNode();
    for (String field : List.of("personId", "printedName", "enterpriseId")) {
      form.first(field)
          .map(String::strip)
          .filter(text -> !text.isEmpty())
          .ifPresent(text -> asked.put(field, text));
    }
    form.all("roles").forEach(asked.withArray("roles")::add);
    return AccountBody.read(json, json.writeValueAsBytes(asked));
  }

  private List<String> sentences(ApiProblem refused) {
    return refused.document().kind() == ProblemKind.FRESH_LOG_IN_NEEDED
        ? List.of(texts().of("notProved"))
        : pages.sentences(
            refused, field -> texts().has("field." + field) ? texts().of("field", field) : field);
  }

  private Response shownOnce(People.Made made) {
    return Response.ok(
            pages.render(
                Templates.password(
                    pages.around(NavigationItem.PEOPLE),
                    PersonRow.of(made.person()),
                    made.password())))
        .build();
  }

  private Response refused(ApiProblem refused, PersonFormView sheet) {
    return Response.status(refused.document().status()).entity(show(sheet, "")).build();
  }

  private static Response seeOther(String id, String done) {
    return Response.seeOther(URI.create(PersonRow.href(id) + "?done=" + done)).build();
  }

  /** Who binds people to enterprises must know them all, and sees of them no more than the name. */
  private String show(PersonFormView sheet, String done) {
    return pages.render(
        Templates.person(
            pages.around(NavigationItem.PEOPLE), sheet, facts.enterprises().all(), done));
  }

  private PageTexts texts() {
    return pages.words().texts("people");
  }
}
