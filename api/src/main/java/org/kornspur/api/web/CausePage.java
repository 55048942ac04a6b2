package org.kornspur.api.web;

import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import jakarta.inject.Inject;
import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.Response;
import java.net.URI;
import java.util.Optional;
import java.util.Set;
import org.kornspur.api.command.act.RecordsUnauthorizedSigning;
import org.kornspur.api.command.act.ReleaseSigning;
import org.kornspur.api.command.act.ReleasesRequest;
import org.kornspur.api.command.cause.CauseNoteWriter;
import org.kornspur.api.problem.AddressDetail;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.query.QueryService;
import org.kornspur.api.readmodel.CauseKey;
import org.kornspur.api.security.CurrentCaller;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.RequiresPermission;
import org.kornspur.api.security.login.FormFields;
import org.kornspur.contract.ActKind;
import org.kornspur.ingest.problem.Given;

/**
 * One cause for which seed is not fit: all that it reaches, who got seed of it, what was done about
 * it, and where the lots that were released are held back.
 */
@Path("/desk/causes/{cause}")
@Produces(MediaType.TEXT_HTML + ";charset=UTF-8")
public class CausePage {
  @Inject PageFrames pages;
  @Inject CausePageAssembler contents;
  @Inject CauseNoteWriter notes;
  @Inject ReleaseSigning signing;
  @Inject QueryService queries;
  @Inject CurrentCaller caller;

  @CheckedTemplate(basePath = "web")
  static class Templates {
    static native TemplateInstance cause(
        PageFrame page, CausePageView cause, boolean mayNote, boolean maySign);
  }

  @GET
  @RequiresPermission(Permission.READ_DESK)
  public String cause(@PathParam("cause") String cause) {
    return show(contents.of(key(cause), CausePageAssembler.Sent.NOTHING));
  }

  /** The card of today and this page send the same form; {@code back} says which. */
  @POST
  @Path("notes")
  @RequiresPermission(Permission.NOTE_CAUSES)
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  public Response note(@PathParam("cause") String cause, byte[] body) {
    CauseKey key = key(cause);
    FormFields form = FormFields.of(body);
    Optional<String> text = form.first("text");
    try {
      notes.write(caller.get(), key, form.first("kind").orElse(""), text);
    } catch (ApiProblem refused) {
      CausePageAssembler.Sent sent =
          CausePageAssembler.Sent.note(pages.sentences(refused), text.orElse(""));
      return refused(refused, contents.of(key, sent));
    }
    CausePageView kept = contents.of(key, CausePageAssembler.Sent.NOTHING);
    String here = kept.href() + "#notes";
    return Response.seeOther(
            URI.create(
                form.first("back").filter("desk"::equals).isPresent()
                    ? kept.card().map(card -> "/desk#" + card.anchor()).orElse(here)
                    : here))
        .build();
  }

  @POST
  @Path("suspension")
  @RecordsUnauthorizedSigning
  @RequiresPermission(Permission.SIGN_ACTS)
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  public Response suspend(@PathParam("cause") String cause, byte[] body) {
    CauseKey key = key(cause);
    FormFields form = FormFields.of(body);
    try {
      ReleasePageView.Done done =
          contents
              .results()
              .done(signing.sign(caller.get(), ReleasesRequest.read(form, ActKind.SUSPEND)));
      return Response.status(
              done.signed().isEmpty() ? Response.Status.CONFLICT : Response.Status.OK)
          .entity(show(contents.of(key, CausePageAssembler.Sent.signed(done))))
          .build();
    } catch (ApiProblem refused) {
      CausePageAssembler.Sent again =
          CausePageAssembler.Sent.refused(
              pages.sentences(refused),
              Set.copyOf(ReleasesRequest.chosen(form)),
              form.first("reason").orElse(""),
              form.first("meaning").orElse(""));
      return refused(refused, contents.of(key, again));
    }
  }

  private Response refused(ApiProblem why, CausePageView content) {
    return Response.status(why.document().status()).entity(show(content)).build();
  }

  private static CauseKey key(String text) {
    return CauseKey.parse(text)
        .orElseThrow(() -> ApiProblem.notFound(new AddressDetail.NoCause(Given.text(text, false))));
  }

  private String show(CausePageView content) {
    return pages.render(
        Templates.cause(
            pages.around(NavigationItem.DESK, queries.asOf()),
            content,
            caller.get().may(Permission.NOTE_CAUSES),
            caller.get().may(Permission.SIGN_ACTS)));
  }
}
