package org.kornspur.api.web.laboratory;

import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import jakarta.inject.Inject;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.Context;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.UriInfo;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import org.kornspur.api.http.IgnoredParameters;
import org.kornspur.api.query.QueryService;
import org.kornspur.api.query.view.PageView;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.RequiresPermission;
import org.kornspur.api.web.NavigationItem;
import org.kornspur.api.web.PageFrame;
import org.kornspur.api.web.PageFrames;
import org.kornspur.api.web.Paging;
import org.kornspur.api.web.form.FactForm;
import org.kornspur.api.web.form.PreviewLine;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.processors.dossier.Entry;

/** The samples that are assigned to a laboratory, and one of them. */
@Path("/laboratory")
@Produces(MediaType.TEXT_HTML + ";charset=UTF-8")
public class LaboratoryPage {
  private static final int SAMPLES_A_PAGE = 20;

  /** What corrects a result happened when it did, and stands after it. */
  private static final Comparator<Entry> AS_RECORDED =
      Comparator.comparing((Entry entry) -> entry.header().getHappenedAt())
          .thenComparing(entry -> entry.header().getRecordedAt());

  @Inject PageFrames pages;
  @Inject QueryService queries;
  @Inject LaboratorySamples samples;
  @Inject IgnoredParameters ignored;

  /**
   * A result that this laboratory brought.
   *
   * @param test in the words of the trade
   * @param correctHref address of the form that corrects it; empty where it does not count or has
   *     no form
   */
  public record Result(Entry entry, String test, List<PreviewLine> lines, String correctHref) {}

  /**
   * The samples on a page of the list.
   *
   * @param laboratory id; empty where who asks is bound to none
   */
  public record Listed(
      Optional<String> laboratory,
      List<LaboratorySample> open,
      List<LaboratorySample> finished,
      Paging paging) {}

  @CheckedTemplate(basePath = "web/laboratory")
  static class Templates {
    static native TemplateInstance list(PageFrame page, Listed listed);

    static native TemplateInstance sample(
        PageFrame page,
        LaboratorySample sample,
        String mass,
        String accreditation,
        List<FactForm.Task> tasks,
        List<Result> results,
        boolean recorded);
  }

  @GET
  @RequiresPermission(Permission.TEST_SAMPLES)
  public String list(@QueryParam("page") String page, @Context UriInfo uri) {
    int number = ignored.parameters().page(page);
    PageFrame frame = pages.around(NavigationItem.LABORATORY, queries.asOf());
    PageView<LaboratorySample> found =
        PageView.of(
            samples.page(number, SAMPLES_A_PAGE, frame), Function.identity(), queries.asOf());
    return pages.render(
        Templates.list(
            frame,
            new Listed(
                samples.laboratory(),
                found.items().stream().filter(LaboratorySample::open).toList(),
                found.items().stream().filter(sample -> !sample.open()).toList(),
                Paging.of(found, uri))));
  }

  @GET
  @Path("lots/{lot}/samples/{sample}")
  @RequiresPermission(Permission.TEST_SAMPLES)
  public String sample(
      @PathParam("lot") String lotId,
      @PathParam("sample") String sampleId,
      @QueryParam("recorded") String recorded) {
    PageFrame frame = pages.around(NavigationItem.LABORATORY, queries.asOf());
    LaboratorySamples.Whole whole = samples.sample(lotId, sampleId, frame);
    List<FactForm.Task> tasks =
        Arrays.stream(LaboratoryForm.values())
            .map(form -> new FactForm.Task(form, whole.sample().href() + "/" + form.path()))
            .toList();
    ResultPreview preview =
        new ResultPreview(pages.words().texts("laboratory"), pages.words().words());
    return pages.render(
        Templates.sample(
            frame,
            whole.sample(),
            frame.form().measure(whole.sampling().getSubmittedSampleG(), "g"),
            whole.sampling().getSamplerAccreditation(),
            tasks,
            whole.own().stream()
                .sorted(AS_RECORDED)
                .map(entry -> result(entry, whole, preview, frame))
                .toList(),
            recorded != null));
  }

  private Result result(
      Entry entry, LaboratorySamples.Whole whole, ResultPreview preview, PageFrame frame) {
    String correctHref =
        entry.counts()
            ? LaboratoryForm.of(entry.fact())
                .map(
                    form ->
                        LaboratorySamples.correctHref(
                            whole.sample().href(), form, entry.header().getFactId()))
                .orElse("")
            : "";
    return new Result(
        entry,
        frame.trade().fact(FactType.of(entry.fact())),
        preview.of(
            entry.fact(),
            whole.germinationTests(earlier -> Entry.BY_TIME_THEN_ID.compare(earlier, entry) < 0)),
        correctHref);
  }
}
