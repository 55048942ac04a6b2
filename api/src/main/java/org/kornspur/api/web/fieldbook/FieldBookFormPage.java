package org.kornspur.api.web.fieldbook;

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
import jakarta.ws.rs.core.MultivaluedMap;
import jakarta.ws.rs.core.Response;
import java.net.URI;
import java.time.Clock;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.kornspur.api.http.IgnoredParameters;
import org.kornspur.api.http.Parameters;
import org.kornspur.api.http.ReadsQueryItself;
import org.kornspur.api.kafka.RulesInForce;
import org.kornspur.api.problem.AccessDetail;
import org.kornspur.api.problem.AddressDetail;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.problem.ProblemKind;
import org.kornspur.api.query.VisibleData;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.RequiresPermission;
import org.kornspur.api.web.PageFrame;
import org.kornspur.api.web.form.FactForm;
import org.kornspur.api.web.form.Field;
import org.kornspur.api.web.form.FormReader;
import org.kornspur.api.web.form.FormSubmission;
import org.kornspur.api.web.form.FormView;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.problem.Given;
import org.kornspur.processors.advice.InspectionAdvice;

/**
 * The forms of a crop. They work by themselves; where a script runs, it sends what they hold as
 * facts and nothing is posted here.
 */
@Path("/field-book/crops/{id}/{form}")
@Produces(MediaType.TEXT_HTML + ";charset=UTF-8")
public class FieldBookFormPage {
  private static final double RISK = 0.05;
  private static final int UNPROCESSABLE = 422;

  private final Clock clock = Clock.systemUTC();

  @Inject FieldBookFrames frames;
  @Inject FieldCrops crops;
  @Inject VisibleData data;
  @Inject FormSubmission sending;
  @Inject IgnoredParameters ignored;
  @Inject RulesInForce rules;

  /**
   * The plans of a form's counts.
   *
   * @param data the same for the script, as JSON
   * @param multiple how many times the limit is certainly too bad
   */
  public record Tally(List<TallyPlan> plans, String data, int multiple, List<Integer> multiples) {}

  @CheckedTemplate(basePath = "web/fieldbook")
  static class Templates {
    static native TemplateInstance sheet(
        PageFrame page,
        FieldBookFrame book,
        FieldCrop crop,
        FormView<FieldBookForm> sheet,
        Tally tally);
  }

  @GET
  @ReadsQueryItself("mend")
  @RequiresPermission(Permission.POST_FACTS)
  public String form(
      @PathParam("id") String id,
      @PathParam("form") String path,
      @QueryParam("multiple") String multiple) {
    FieldBookForm form = allowed(path);
    int times = multiple(multiple);
    PageFrame frame = frames.frame();
    FieldCrop crop = crops.crop(id, frame);
    return page(frame, crop, fields(crop, frame).sheet(form), times);
  }

  @POST
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  @RequiresPermission(Permission.POST_FACTS)
  public Response record(
      @PathParam("id") String id,
      @PathParam("form") String path,
      MultivaluedMap<String, String> posted) {
    FieldBookForm form = allowed(path);
    PageFrame frame = frames.frame();
    FieldCrop crop = crops.crop(id, frame);
    FormView<FieldBookForm> empty = fields(crop, frame).sheet(form);
    FormReader reader = new FormReader(posted, frame.form(), frames.texts());
    ObjectNode fact = reader.fact(empty, frames.person(), clock.instant());
    Map<String, List<Field.Fault>> faults = new LinkedHashMap<>(reader.faults());
    if (faults.isEmpty()) {
      faults.putAll(sending.send(fact));
    }
    if (faults.isEmpty()) {
      return Response.seeOther(URI.create(crop.href() + "?recorded=" + form.path())).build();
    }
    String page = page(frame, crop, empty.posted(reader, faults), 2);
    return Response.status(UNPROCESSABLE).entity(page).build();
  }

  private String page(
      PageFrame frame, FieldCrop crop, FormView<FieldBookForm> sheet, int multiple) {
    List<TallyPlan> plans =
        sheet.form().isCounting()
            ? new TallyPlans(
                    new InspectionAdvice.Terms(RISK, RISK, multiple),
                    frames.texts(),
                    frames.pages().words().words(),
                    rules.rulebooks())
                .of(data.dossier(Subject.crop(crop.id())), sheet.form())
            : List.of();
    Tally tally = new Tally(plans, frames.json(plans), multiple, List.of(2, 3, 5));
    return frames.pages().render(Templates.sheet(frame, frames.book(), crop, sheet, tally));
  }

  private FieldBookFields fields(FieldCrop crop, PageFrame frame) {
    return new FieldBookFields(crop, frames.texts(), frame.form().zone(), clock);
  }

  private FieldBookForm allowed(String path) {
    FieldBookForm form =
        FactForm.at(path, FieldBookForm.values())
            .orElseThrow(
                () -> ApiProblem.notFound(new AddressDetail.NoBookForm(Given.text(path, false))));
    if (!frames.may(form)) {
      throw new ApiProblem(ProblemKind.FORBIDDEN, new AccessDetail.MayNotRecord());
    }
    return form;
  }

  private int multiple(String text) {
    Parameters parameters = ignored.parameters();
    int multiple = parameters.whole("multiple", text, 2, 2, 10);
    parameters.check();
    return multiple;
  }
}
