package org.kornspur.api.web.audit;

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
import java.nio.file.Files;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.kornspur.api.command.audit.AuditOrder;
import org.kornspur.api.command.audit.AuditPack;
import org.kornspur.api.command.audit.AuditPacks;
import org.kornspur.api.command.audit.LotChoice;
import org.kornspur.api.http.Attachment;
import org.kornspur.api.http.IgnoredParameters;
import org.kornspur.api.query.VisibleData;
import org.kornspur.api.security.CurrentCaller;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.RequiresPermission;
import org.kornspur.api.security.login.FormFields;
import org.kornspur.api.web.NavigationItem;
import org.kornspur.api.web.PageFrame;
import org.kornspur.api.web.PageFrames;

/**
 * Where an auditor chooses lots and has them put into one archive, which is made in the background.
 */
@Path(AuditPage.ROOT)
@Produces(MediaType.TEXT_HTML + ";charset=UTF-8")
public class AuditPage {
  static final String ROOT = "/audit";
  private static final String ZIP = "application/zip";

  @Inject PageFrames pages;
  @Inject VisibleData data;
  @Inject AuditPacks packs;
  @Inject CurrentCaller caller;
  @Inject IgnoredParameters ignored;

  @CheckedTemplate(basePath = "web/audit")
  static class Templates {
    static native TemplateInstance audit(PageFrame page, AuditView view);

    static native TemplateInstance pack(PageFrame page, PackView pack);

    static native TemplateInstance gone(PageFrame page, int hours);
  }

  @GET
  @RequiresPermission(Permission.AUDIT)
  public String choose(
      @QueryParam("ids") String ids,
      @QueryParam("cropYear") String cropYear,
      @QueryParam("holder") String holder,
      @QueryParam("sample") String sample,
      @QueryParam("seed") String seed) {
    LotChoice choice =
        new ChoiceForm(ids, cropYear, holder, sample, seed).read(ignored.parameters());
    return page(choice, "");
  }

  /** Has a pack made of the lots that are ticked among those chosen. */
  @POST
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  @RequiresPermission(Permission.AUDIT)
  public Response make(byte[] body) {
    FormFields form = FormFields.of(body);
    LotChoice choice =
        new ChoiceForm(
                form.first("ids").orElse(""),
                form.first("cropYear").orElse(""),
                form.first("holder").orElse(""),
                form.first("sample").orElse(""),
                form.first("seed").orElse(""))
            .read(ignored.parameters());
    LotChoice.Chosen chosen = choice.in(data);
    Set<String> ticked = new HashSet<>(form.all("lot"));
    List<String> ids = chosen.lots().stream().map(row -> row.subject().id()).toList();
    List<String> lots = ids.stream().filter(ticked::contains).toList();
    if (lots.isEmpty() || lots.size() > LotChoice.MOST_LOTS) {
      return Response.status(Response.Status.BAD_REQUEST)
          .entity(page(choice, lots.isEmpty() ? "none" : "tooMany"))
          .build();
    }
    AuditOrder order =
        new AuditOrder(
            caller.get(),
            pages.words().language(),
            choice,
            chosen.among(),
            lots,
            ids.stream().filter(id -> !ticked.contains(id)).toList());
    return packs
        .order(order)
        .map(pack -> Response.seeOther(URI.create(PackView.address(pack))).build())
        .orElseGet(
            () -> Response.status(Response.Status.CONFLICT).entity(page(choice, "busy")).build());
  }

  private String page(LotChoice choice, String refused) {
    return pages.render(
        Templates.audit(
            pages.around(NavigationItem.AUDIT),
            AuditView.of(choice, data, pages.words(), refused, packs.of(caller.get()))));
  }

  @GET
  @Path("packs/{id}")
  @RequiresPermission(Permission.AUDIT)
  public Response pack(@PathParam("id") String id) {
    return packs
        .of(caller.get(), id)
        .map(
            pack ->
                pages.render(
                    Templates.pack(
                        pages.around(NavigationItem.AUDIT), PackView.of(pack, pages.words()))))
        .map(page -> Response.ok(page).build())
        .orElseGet(this::gone);
  }

  @GET
  @Path("packs/{id}/audit-pack.zip")
  @Produces(ZIP)
  @RequiresPermission(Permission.AUDIT)
  public Response archive(@PathParam("id") String id) {
    Optional<AuditPack> ready =
        packs.of(caller.get(), id).filter(pack -> pack.state() == AuditPack.State.READY);
    return ready
        .map(pack -> Attachment.of("audit-pack.zip", out -> Files.copy(pack.file(), out)))
        .orElseGet(this::gone);
  }

  /** A pack that was deleted, was lost with a start of the program, or is another person's. */
  private Response gone() {
    return Response.status(Response.Status.NOT_FOUND)
        .type(MediaType.TEXT_HTML + ";charset=UTF-8")
        .entity(
            pages.render(
                Templates.gone(
                    pages.around(NavigationItem.AUDIT), (int) AuditPacks.KEPT.toHours())))
        .build();
  }
}
