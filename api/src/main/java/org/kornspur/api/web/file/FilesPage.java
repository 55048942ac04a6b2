package org.kornspur.api.web.file;

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
import jakarta.ws.rs.core.Context;
import jakarta.ws.rs.core.HttpHeaders;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.Response;
import java.io.IOException;
import java.net.URI;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.kornspur.api.command.fact.TableIntake.Fate;
import org.kornspur.api.command.table.SentTable;
import org.kornspur.api.command.table.SentTables;
import org.kornspur.api.command.table.TableChoices;
import org.kornspur.api.http.Attachment;
import org.kornspur.api.http.HeavyDocument;
import org.kornspur.api.problem.AddressDetail;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.security.Caller;
import org.kornspur.api.security.CurrentCaller;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.RequiresPermission;
import org.kornspur.api.security.login.FormFields;
import org.kornspur.api.security.login.MultipartForm;
import org.kornspur.api.text.PageTexts;
import org.kornspur.api.web.NavigationItem;
import org.kornspur.api.web.PageFrame;
import org.kornspur.api.web.PageFrames;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.problem.Given;

/**
 * Where a person sends tables of facts: a template of each kind, what a table would come to before
 * any of it is recorded, and what was refused, to be mended. It works without a script.
 */
@Path("/files")
@Produces(MediaType.TEXT_HTML + ";charset=UTF-8")
public class FilesPage {
  private static final String XLSX =
      "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet";

  @Inject PageFrames pages;
  @Inject SentTables tables;
  @Inject CurrentCaller caller;

  /** A kind of fact that this person may bring, with the address of its template. */
  public record Kind(String name, String label, String template) {}

  @CheckedTemplate(basePath = "web")
  static class Templates {
    static native TemplateInstance files(PageFrame page, List<Kind> kinds, boolean noFile);

    static native TemplateInstance file(PageFrame page, FileView file);
  }

  @GET
  @RequiresPermission(Permission.POST_FACTS)
  public String files() {
    return files(false);
  }

  private String files(boolean noFile) {
    return pages.render(
        Templates.files(
            pages.around(NavigationItem.FILES),
            mayBring(caller.get()).stream()
                .map(
                    type ->
                        new Kind(
                            type.contractName(),
                            pages.words().terms().fact(type),
                            "/files/templates/" + type.contractName() + ".xlsx"))
                .sorted(Comparator.comparing(Kind::label))
                .toList(),
            noFile));
  }

  static List<FactType> mayBring(Caller person) {
    return Arrays.stream(FactType.values())
        .filter(type -> !type.isAct() && person.may(Permission.toPost(type)))
        .toList();
  }

  @GET
  @Path("templates/{kind}.xlsx")
  @Produces(XLSX)
  @RequiresPermission(Permission.POST_FACTS)
  public Response template(@PathParam("kind") String kind) {
    FactType type =
        FactType.named(kind)
            .filter(one -> !one.isAct())
            .orElseThrow(() -> nothingAt("/files/templates/" + kind + ".xlsx"));
    TableTemplate template = new TableTemplate(type, pages.words().form(), pages.words().words());
    return Attachment.of(
        TableTemplate.sheetName(pages.words().terms().fact(type)) + ".xlsx", template::write);
  }

  @POST
  @Consumes(MediaType.MULTIPART_FORM_DATA)
  @RequiresPermission(Permission.POST_FACTS)
  public Response send(@Context HttpHeaders headers, byte[] body) throws IOException {
    MultipartForm form = MultipartForm.of(headers.getMediaType(), body);
    Optional<MultipartForm.SentFile> file =
        form.file("file").filter(given -> given.content().length > 0);
    if (file.isEmpty()) {
      return Response.status(Response.Status.BAD_REQUEST).entity(files(true)).build();
    }
    TableChoices choices =
        new TableChoices(
            form.text("kind").flatMap(FactType::named),
            Optional.empty(),
            Optional.empty(),
            Map.of());
    return to(tables.take(caller.get(), file.get().name(), file.get().content(), choices));
  }

  @GET
  @Path("{id}")
  @RequiresPermission(Permission.POST_FACTS)
  public String file(
      @PathParam("id") String id,
      @QueryParam("rows") String rows,
      @QueryParam("page") String page) {
    SentTable table = table(id);
    Optional<Fate> fate =
        Arrays.stream(Fate.values()).filter(one -> one.name().equals(rows)).findFirst();
    int number = page != null && page.matches("\\d{1,4}") ? Integer.parseInt(page) : 1;
    return pages.render(
        Templates.file(
            pages.around(NavigationItem.FILES),
            new FileViews(pages.words(), mayBring(caller.get())).of(table, fate, number)));
  }

  /** Reads the table anew, as the person said of it, or records it. */
  @POST
  @Path("{id}")
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  @RequiresPermission(Permission.POST_FACTS)
  public Response goOn(@PathParam("id") String id, byte[] body) {
    SentTable table = table(id);
    FormFields form = FormFields.of(body);
    if (form.first("record").isPresent()) {
      tables.record(table);
    } else {
      tables.look(table, TableChoicesForm.read(form));
    }
    return to(table);
  }

  @GET
  @Path("{id}/refused.xlsx")
  @Produces(XLSX)
  @RequiresPermission(Permission.POST_FACTS)
  @HeavyDocument
  public Response refused(@PathParam("id") String id) {
    SentTable table = table(id);
    PageTexts texts = pages.words().texts("files");
    return Attachment.of(
        texts.of("refusedFile") + ".xlsx",
        out -> RefusedRows.write(table, table.form().orElseThrow(), pages.words().language(), out));
  }

  private SentTable table(String id) {
    return tables.of(caller.get(), id).orElseThrow(() -> nothingAt("/files/" + id));
  }

  private static ApiProblem nothingAt(String address) {
    return ApiProblem.notFound(new AddressDetail.NoResource(Given.text(address, false)));
  }

  private static Response to(SentTable table) {
    return Response.seeOther(URI.create("/files/" + table.id())).build();
  }
}
