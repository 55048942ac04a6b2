package org.kornspur.api.web.fieldbook;

import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import jakarta.inject.Inject;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.UriBuilder;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.kornspur.api.http.IgnoredParameters;
import org.kornspur.api.http.Parameters;
import org.kornspur.api.http.ReadsQueryItself;
import org.kornspur.api.query.view.PageView;
import org.kornspur.api.query.view.StandingLineView;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.RequiresPermission;
import org.kornspur.api.web.NavigationItem;
import org.kornspur.api.web.PageFrame;
import org.kornspur.api.web.Paging;
import org.kornspur.api.web.form.FactForm;

/** The crops to choose from, one crop, and what waits to be sent. */
@Path("/field-book")
@Produces(MediaType.TEXT_HTML + ";charset=UTF-8")
public class FieldBookPage {
  private static final int CROPS_A_PAGE = 20;

  @Inject FieldBookFrames frames;
  @Inject FieldCrops crops;
  @Inject DueCrops due;
  @Inject IgnoredParameters ignored;

  /**
   * The crops on a page of the list.
   *
   * @param due those of which something is due this week; empty but on the first page
   */
  public record Crops(
      int season,
      List<Integer> seasons,
      String id,
      List<DueCrops.DueCrop> due,
      List<FieldCrop> crops,
      Paging paging) {

    /** Whether it is the first page of all crops, where what is due stands first. */
    public boolean isFirst() {
      return id.isEmpty() && paging.page() == 1;
    }
  }

  @CheckedTemplate(basePath = "web/fieldbook")
  static class Templates {
    static native TemplateInstance crops(PageFrame page, FieldBookFrame book, Crops found);

    static native TemplateInstance crop(
        PageFrame page,
        FieldBookFrame book,
        FieldCrop crop,
        List<FactForm.Task> tasks,
        boolean recorded);

    static native TemplateInstance outbox(PageFrame page, FieldBookFrame book);

    static native TemplateInstance notkept(PageFrame page, FieldBookFrame book);
  }

  @GET
  @RequiresPermission(Permission.READ_CROPS)
  public String list(
      @QueryParam("cropYear") String cropYear,
      @QueryParam("id") String id,
      @QueryParam("page") String page) {
    Parameters parameters = ignored.parameters();
    Optional<Integer> asked = parameters.whole("cropYear", cropYear, 1990, 2100);
    Optional<String> idPrefix = parameters.id("id", id);
    int number = parameters.page(page);
    parameters.check();
    int season = asked.orElseGet(crops::latestSeason);
    PageView<StandingLineView> found = crops.page(season, idPrefix, number, CROPS_A_PAGE);
    PageFrame frame = frames.pages().around(NavigationItem.FIELD_BOOK, found.asOf());
    return frames
        .pages()
        .render(
            Templates.crops(
                frame,
                frames.book(),
                new Crops(
                    season,
                    FieldCrops.seasons(),
                    idPrefix.orElse(""),
                    idPrefix.isEmpty() && number == 1
                        ? due.thisWeek(season, frame, frames.texts())
                        : List.of(),
                    found.items().stream().map(line -> crops.card(line, frame)).toList(),
                    Paging.of(found, to -> address(season, idPrefix, to)))));
  }

  @GET
  @Path("crops/{id}")
  @RequiresPermission(Permission.READ_CROPS)
  public String crop(@PathParam("id") String id, @QueryParam("recorded") String recorded) {
    PageFrame frame = frames.frame();
    FieldCrop crop = crops.crop(id, frame);
    List<FactForm.Task> tasks =
        Arrays.stream(FieldBookForm.values())
            .filter(frames::may)
            .filter(form -> form != FieldBookForm.STERILITY_CHECK || crop.hasFemale())
            .map(form -> new FactForm.Task(form, crop.href() + "/" + form.path()))
            .toList();
    return frames
        .pages()
        .render(Templates.crop(frame, frames.book(), crop, tasks, recorded != null));
  }

  @GET
  @Path("outbox")
  @ReadsQueryItself("leaving")
  @RequiresPermission(Permission.READ_PAGES)
  public String outbox() {
    return frames.pages().render(Templates.outbox(frames.frame(), frames.book()));
  }

  /** Shown without network in place of a page that the phone has not kept. */
  @GET
  @Path("not-kept")
  @RequiresPermission(Permission.READ_PAGES)
  public String notKept() {
    return frames.pages().render(Templates.notkept(frames.frame(), frames.book()));
  }

  private static String address(int season, Optional<String> id, int page) {
    UriBuilder address =
        UriBuilder.fromPath("/field-book").queryParam("cropYear", season).queryParam("page", page);
    id.ifPresent(prefix -> address.queryParam("id", prefix));
    return address.build().toString();
  }
}
