package org.kornspur.api.web;

import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import jakarta.inject.Inject;
import jakarta.ws.rs.BeanParam;
import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.Context;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.Response;
import jakarta.ws.rs.core.UriInfo;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.kornspur.api.command.act.ActSigning;
import org.kornspur.api.command.act.RecordsUnauthorizedSigning;
import org.kornspur.api.command.act.ReleaseSheetView;
import org.kornspur.api.command.act.ReleaseSigning;
import org.kornspur.api.command.act.ReleasesRequest;
import org.kornspur.api.http.IgnoredParameters;
import org.kornspur.api.http.StandingFilter;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.query.QueryService;
import org.kornspur.api.query.ReleaseCandidates;
import org.kornspur.api.query.VisibleData;
import org.kornspur.api.query.view.PageView;
import org.kornspur.api.readmodel.StandingIndexRow;
import org.kornspur.api.readmodel.StandingQuery;
import org.kornspur.api.security.CurrentCaller;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.RequiresPermission;
import org.kornspur.api.security.login.FormFields;
import org.kornspur.api.text.Addresses;
import org.kornspur.contract.ActKind;
import org.kornspur.ingest.contract.Subject;

/**
 * Where a person releases lots, one or many: each a line with what is out of the ordinary, and one
 * signature under the chosen ones. It works without a script.
 */
@Path("/release")
@Produces(MediaType.TEXT_HTML + ";charset=UTF-8")
public class ReleasePage {
  @Inject PageFrames pages;
  @Inject ReleaseCandidates candidates;
  @Inject ReleaseSigning releases;
  @Inject ActSigning acts;
  @Inject VisibleData data;
  @Inject QueryService queries;
  @Inject IgnoredParameters ignored;
  @Inject CurrentCaller caller;

  @CheckedTemplate(basePath = "web")
  static class Templates {
    static native TemplateInstance release(
        PageFrame page, ReleasePageView table, Filters filters, Paging paging);
  }

  /** What was sent before, to be shown again. */
  private record Sent(
      Optional<ReleasePageView.Done> done,
      List<String> refusals,
      Set<String> chosen,
      String reason,
      String meaning) {

    /** Whether it was signed for just now, so that its line need not be shown. */
    private boolean isSigned(Subject lot) {
      return done.stream()
          .flatMap(all -> all.signed().stream())
          .anyMatch(one -> one.id().equals(lot.id()));
    }
  }

  @GET
  @RequiresPermission(Permission.SIGN_ACTS)
  public String table(@BeanParam StandingFilter filter, @Context UriInfo uri) {
    return show(filter, uri, new Sent(Optional.empty(), List.of(), Set.of(), "", usualMeaning()));
  }

  @POST
  @RecordsUnauthorizedSigning
  @RequiresPermission(Permission.SIGN_ACTS)
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  public Response sign(@BeanParam StandingFilter filter, @Context UriInfo uri, byte[] body) {
    FormFields form = FormFields.of(body);
    try {
      ReleasePageView.Done done =
          results().done(releases.sign(caller.get(), ReleasesRequest.read(form, ActKind.RELEASE)));
      Sent sent = new Sent(Optional.of(done), List.of(), Set.of(), "", usualMeaning());
      return Response.status(
              done.signed().isEmpty() ? Response.Status.CONFLICT : Response.Status.OK)
          .entity(show(filter, uri, sent))
          .build();
    } catch (ApiProblem refused) {
      Sent again =
          new Sent(
              Optional.empty(),
              pages.sentences(refused),
              Set.copyOf(ReleasesRequest.chosen(form)),
              form.first("reason").orElse(""),
              form.first("meaning").orElse(""));
      return Response.status(refused.document().status()).entity(show(filter, uri, again)).build();
    }
  }

  private String usualMeaning() {
    return pages.words().texts("release").of("usualMeaning");
  }

  private SigningResults results() {
    return new SigningResults(pages, acts, ActKind.RELEASE, caller.get().personId());
  }

  private String show(StandingFilter filter, UriInfo uri, Sent sent) {
    StandingQuery query = filter.query(Set.of(Subject.Kind.LOT), false, ignored.parameters());
    PageView<StandingIndexRow> found =
        PageView.of(
            candidates.find(query, ReleasesRequest.MOST, lot -> !sent.isSigned(lot)),
            row -> row,
            queries.asOf());
    String asked = uri.getRequestUri().getRawQuery();
    ReleasePageView table =
        new ReleasePageView(
            found.items().stream()
                .map(StandingIndexRow::subject)
                .map(lot -> line(lot, sent))
                .toList(),
            NavigationItem.RELEASE.href() + (asked == null ? "" : "?" + asked),
            releases.isAllowed(),
            releases.needsTwoPersons(),
            pages.words().words().caution("signing"),
            sent.done(),
            sent.refusals(),
            sent.reason(),
            sent.meaning());
    return pages.render(
        Templates.release(
            pages.around(NavigationItem.RELEASE, found.asOf()),
            table,
            Filters.of(uri, data.values(), pages.words().terms()),
            Paging.of(found, uri)));
  }

  private ReleasePageView.Line line(Subject lot, Sent sent) {
    ReleaseSheetView sheet = acts.sheetFor(lot, caller.get().personId());
    String choice = sheet.seal() + " " + lot.id();
    return new ReleasePageView.Line(
        lot.id(),
        Addresses.pageOf(lot),
        choice,
        sent.chosen().contains(choice),
        Optional.ofNullable(sheet.standing().material()),
        sheet.standing().leftKg(),
        Optional.ofNullable(sheet.standing().holder())
            .map(holder -> pages.words().words().named(Subject.parse(holder.subject())))
            .orElse(""),
        results().whyNot(sheet),
        new ReleaseCautions(pages.words(), data).of(sheet.standing()));
  }
}
