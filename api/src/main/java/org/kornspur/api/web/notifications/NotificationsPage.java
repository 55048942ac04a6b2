package org.kornspur.api.web.notifications;

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
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import java.util.function.Supplier;
import org.kornspur.api.command.notification.GivenUpMessages;
import org.kornspur.api.command.notification.MailSender;
import org.kornspur.api.command.notification.NotificationChoices;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.security.CurrentCaller;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.RequiresPermission;
import org.kornspur.api.security.login.FormFields;
import org.kornspur.api.security.visibility.SkipRedaction;
import org.kornspur.api.text.PageTexts;
import org.kornspur.api.web.NavigationItem;
import org.kornspur.api.web.PageFrame;
import org.kornspur.api.web.PageFrames;
import org.kornspur.contract.NotificationKind;
import org.kornspur.contract.NotificationMessage;

/**
 * Where a person chooses what to hear of, how soon and where; and where an administrator sees which
 * messages were given up.
 */
@Path(NotificationsPage.ROOT)
@Produces(MediaType.TEXT_HTML + ";charset=UTF-8")
public class NotificationsPage {
  /** Its address; the corner of each page with the person leads there. */
  public static final String ROOT = "/notifications";

  @Inject PageFrames pages;
  @Inject NotificationChoices choices;
  @Inject GivenUpMessages givenUp;
  @Inject MailSender mail;
  @Inject CurrentCaller caller;

  @CheckedTemplate(basePath = "web/notifications")
  static class Templates {
    static native TemplateInstance notifications(
        PageFrame page,
        NotificationFormView sheet,
        Optional<List<NotificationMessage>> givenUp,
        String done);

    static native TemplateInstance secret(PageFrame page, String secret);
  }

  /**
   * @param done what was done a moment ago; empty or unknown where nothing was
   */
  @GET
  @SkipRedaction
  @RequiresPermission(Permission.OWN_ACCOUNT)
  public String notifications(@QueryParam("done") String done) {
    boolean isKnown = done != null && texts().has("done." + done);
    return show(sheet(), isKnown ? done : "");
  }

  @POST
  @RequiresPermission(Permission.OWN_ACCOUNT)
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  public Response save(byte[] body) {
    FormFields form = FormFields.of(body);
    return unlessRefused(
        why -> sheet().refused(form, why),
        () ->
            choices
                .save(caller.get(), form::first, pages.words().language())
                .map(this::shownOnce)
                .orElseGet(() -> seeOther(sheet().unconfirmed() ? "codeSent" : "saved")));
  }

  @POST
  @Path("confirm")
  @RequiresPermission(Permission.OWN_ACCOUNT)
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  public Response confirm(byte[] body) {
    FormFields form = FormFields.of(body);
    return unlessRefused(
        why -> sheet().refused(why),
        () -> {
          choices.confirm(caller.get(), form.first("code"));
          return seeOther("confirmed");
        });
  }

  @POST
  @Path("code")
  @RequiresPermission(Permission.OWN_ACCOUNT)
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  public Response sendCodeAgain() {
    return unlessRefused(
        why -> sheet().refused(why),
        () -> {
          choices.sendCodeAgain(caller.get());
          return seeOther("codeSent");
        });
  }

  /** Does what was asked, or shows why not. */
  private Response unlessRefused(
      Function<List<String>, NotificationFormView> refusedFor, Supplier<Response> act) {
    try {
      return act.get();
    } catch (ApiProblem refused) {
      List<String> why = pages.sentences(refused, this::named);
      return Response.status(refused.document().status())
          .entity(show(refusedFor.apply(why), ""))
          .build();
    }
  }

  /** A webhook gets another secret; without one nothing happens. */
  @POST
  @Path("secret")
  @RequiresPermission(Permission.OWN_ACCOUNT)
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  public Response renewSecret() {
    return choices
        .renewSecret(caller.get())
        .map(this::shownOnce)
        .orElseGet(() -> Response.seeOther(URI.create(ROOT)).build());
  }

  @POST
  @Path("messages/{id}/again")
  @RequiresPermission(Permission.SETTLE_MESSAGES)
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  public Response sendAgain(@PathParam("id") String id) {
    givenUp.sendAgain(caller.get(), id);
    return seeOther("again");
  }

  @POST
  @Path("messages/{id}/discard")
  @RequiresPermission(Permission.SETTLE_MESSAGES)
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  public Response discard(@PathParam("id") String id) {
    givenUp.discard(caller.get(), id);
    return seeOther("discarded");
  }

  private NotificationFormView sheet() {
    return NotificationFormView.of(
        choices.kindsFor(caller.get()), choices.of(caller.get()), mail.isSetUp());
  }

  private String named(String field) {
    boolean isKind =
        Arrays.stream(NotificationKind.values()).anyMatch(kind -> kind.name().equals(field));
    if (isKind) {
      return texts().of("kind", field);
    }
    return texts().has("field." + field) ? texts().of("field", field) : field;
  }

  private Response shownOnce(String secret) {
    return Response.ok(
            pages.render(Templates.secret(pages.around(NavigationItem.ELSEWHERE), secret)))
        .build();
  }

  private static Response seeOther(String done) {
    return Response.seeOther(URI.create(ROOT + "?done=" + done)).build();
  }

  private String show(NotificationFormView sheet, String done) {
    return pages.render(
        Templates.notifications(
            pages.around(NavigationItem.ELSEWHERE),
            sheet,
            Optional.of(givenUp)
                .filter(all -> caller.get().may(Permission.SETTLE_MESSAGES))
                .map(GivenUpMessages::all),
            done));
  }

  private PageTexts texts() {
    return pages.words().texts("notifications");
  }
}
