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
import org.eclipse.microprofile.openapi.annotations.Operation;
import org.kornspur.api.http.IgnoredParameters;
import org.kornspur.api.http.Parameters;
import org.kornspur.api.http.ReadsQueryItself;
import org.kornspur.api.query.view.PageView;
import org.kornspur.api.query.view.StandingLine;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.RequiresPermission;
import org.kornspur.api.web.Frame;
import org.kornspur.api.web.NavigationItem;

/** The crops to choose from, one crop, and what waits to be sent. */
@Path("/field-book")
@Produces(MediaType.TEXT_HTML + ";charset=UTF-8")
public class FieldBookPage {
  private static final int CROPS_A_PAGE = 20;

  @Inject BookFrames frames;
  @Inject FieldCrops crops;
  @Inject IgnoredParameters ignored;

  /**
   * The crops on a page of the list.
   *
   * @param previous address of the page before; empty on the first
   * @param next address of the page after; empty on the last
   */
  public record Crops(
      int season,
      List<Integer> seasons,
      String id,
      int total,
      List<FieldCrop> crops,
      Optional<String> previous,
      Optional<String> next) {}

  /** A form that may be filled in, with its address. */
  public record Task(BookForm form, String href) {}

  @CheckedTemplate(basePath = "web/fieldbook")
  static class Templates {
    static native TemplateInstance crops(Frame page, Book book, Crops found);

    static native TemplateInstance crop(
        Frame page, Book book, FieldCrop crop, List<Task> tasks, boolean recorded);

    static native TemplateInstance outbox(Frame page, Book book);

    static native TemplateInstance notkept(Frame page, Book book);
  }

  @GET
  @RequiresPermission(Permission.READ_CROPS)
  @Operation(hidden = true)
  public String list(
      @QueryParam("cropYear") String cropYear,
      @QueryParam("id") String id,
      @QueryParam("page") String page) {
    Parameters parameters = ignored.parameters();
    Optional<Integer> asked = parameters.whole("cropYear", cropYear, 1990, 2100);
    Optional<String> idPrefix = parameters.id("id", id);
    int number = parameters.whole("page", page, 1, 1, 1_000_000);
    parameters.check();
    int season = asked.orElseGet(crops::latestSeason);
    PageView<StandingLine> found = crops.page(season, idPrefix, number, CROPS_A_PAGE);
    Frame frame = frames.framing().around(NavigationItem.FIELD_BOOK, found.asOf());
    return frames
        .framing()
        .render(
            Templates.crops(
                frame,
                frames.book(),
                new Crops(
                    season,
                    FieldCrops.seasons(),
                    idPrefix.orElse(""),
                    found.total(),
                    found.items().stream().map(line -> crops.card(line, frame)).toList(),
                    number > 1
                        ? Optional.of(address(season, idPrefix, number - 1))
                        : Optional.empty(),
                    number < found.pages()
                        ? Optional.of(address(season, idPrefix, number + 1))
                        : Optional.empty())));
  }

  @GET
  @Path("crops/{id}")
  @RequiresPermission(Permission.READ_CROPS)
  @Operation(hidden = true)
  public String crop(@PathParam("id") String id, @QueryParam("recorded") String recorded) {
    Frame frame = frames.frame();
    FieldCrop crop = crops.crop(id, frame);
    List<Task> tasks =
        Arrays.stream(BookForm.values())
            .filter(frames::may)
            .filter(form -> form != BookForm.STERILITY_CHECK || crop.hasFemale())
            .map(form -> new Task(form, crop.href() + "/" + form.path()))
            .toList();
    return frames
        .framing()
        .render(Templates.crop(frame, frames.book(), crop, tasks, recorded != null));
  }

  @GET
  @Path("outbox")
  @ReadsQueryItself("leaving")
  @RequiresPermission(Permission.READ_PAGES)
  @Operation(hidden = true)
  public String outbox() {
    return frames.framing().render(Templates.outbox(frames.frame(), frames.book()));
  }

  /** Shown without network in place of a page that the phone has not kept. */
  @GET
  @Path("not-kept")
  @RequiresPermission(Permission.READ_PAGES)
  @Operation(hidden = true)
  public String notKept() {
    return frames.framing().render(Templates.notkept(frames.frame(), frames.book()));
  }

  private static String address(int season, Optional<String> id, int page) {
    UriBuilder address =
        UriBuilder.fromPath("/field-book").queryParam("cropYear", season).queryParam("page", page);
    id.ifPresent(prefix -> address.queryParam("id", prefix));
    return address.build().toString();
  }
}
