package org.kornspur.api.web.laboratory;

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
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.api.problem.AddressDetail;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.problem.ProblemKind;
import org.kornspur.api.problem.RecordDetail;
import org.kornspur.api.security.CurrentCaller;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.RequiresPermission;
import org.kornspur.api.web.NavigationItem;
import org.kornspur.api.web.PageFrame;
import org.kornspur.api.web.PageFrames;
import org.kornspur.api.web.form.CheckStep;
import org.kornspur.api.web.form.FactForm;
import org.kornspur.api.web.form.Field;
import org.kornspur.api.web.form.FormParts;
import org.kornspur.api.web.form.FormReader;
import org.kornspur.api.web.form.FormSubmission;
import org.kornspur.api.web.form.FormView;
import org.kornspur.api.web.form.PreviewLine;
import org.kornspur.ingest.problem.Given;
import org.kornspur.processors.dossier.Entry;

/**
 * The forms of a sample. What was typed is checked and shown with what it comes to; only what was
 * shown so is then recorded.
 */
@Path("/laboratory/lots/{lot}/samples/{sample}/{form}")
@Produces(MediaType.TEXT_HTML + ";charset=UTF-8")
public class LaboratoryFormPage {
  private static final int UNPROCESSABLE = 422;

  private final Clock clock = Clock.systemUTC();

  @Inject PageFrames pages;
  @Inject LaboratorySamples samples;
  @Inject FormSubmission sending;
  @Inject CurrentCaller caller;

  /** What was typed into a field, as a person reads it. */
  public record Entered(String label, String value) {}

  @CheckedTemplate(basePath = "web/laboratory")
  static class Templates {
    static native TemplateInstance sheet(
        PageFrame page, LaboratorySample sample, FormView<LaboratoryForm> sheet);

    static native TemplateInstance checked(
        PageFrame page,
        LaboratorySample sample,
        FormView<LaboratoryForm> sheet,
        List<PreviewLine> lines,
        List<Entered> entered,
        String checkedAt);
  }

  @GET
  @RequiresPermission(Permission.TEST_SAMPLES)
  public String form(
      @PathParam("lot") String lotId,
      @PathParam("sample") String sampleId,
      @PathParam("form") String path,
      @QueryParam("corrects") String corrects) {
    LaboratoryForm form = known(path);
    PageFrame frame = pages.around(NavigationItem.LABORATORY);
    LaboratorySamples.Whole whole = samples.sample(lotId, sampleId, frame);
    FormView<LaboratoryForm> sheet =
        sheet(form, whole, corrected(form, whole, corrects, ""), frame);
    return pages.render(Templates.sheet(frame, whole.sample(), sheet));
  }

  @POST
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  @RequiresPermission(Permission.TEST_SAMPLES)
  public Response step(
      @PathParam("lot") String lotId,
      @PathParam("sample") String sampleId,
      @PathParam("form") String path,
      MultivaluedMap<String, String> posted) {
    LaboratoryForm form = known(path);
    PageFrame frame = pages.around(NavigationItem.LABORATORY);
    LaboratorySamples.Whole whole = samples.sample(lotId, sampleId, frame);
    FormReader reader = new FormReader(posted, frame.form(), pages.words().texts("book"));
    Optional<Entry> corrected =
        corrected(
            form,
            whole,
            reader.value(LaboratoryFields.SUPERSEDES),
            reader.value(FormReader.FACT_ID));
    FormView<LaboratoryForm> empty = sheet(form, whole, corrected, frame);
    String step = reader.value("step");
    if (step.equals("change")) {
      return page(200, Templates.sheet(frame, whole.sample(), empty.posted(reader, Map.of())));
    }
    ObjectNode fact = fact(empty, reader, corrected, whole, frame);
    Map<String, List<Field.Fault>> faults = new LinkedHashMap<>(reader.faults());
    Optional<SpecificRecord> read = Optional.empty();
    if (faults.isEmpty()) {
      read = sending.read(fact, faults);
      if (read.isPresent()) {
        corrected
            .filter(entry -> CheckStep.saysTheSame(fact, entry.fact()))
            .ifPresent(same -> unchanged(faults));
      }
    }
    if (faults.isEmpty() && step.equals("record")) {
      faults.putAll(sending.send(fact));
      if (faults.isEmpty()) {
        return Response.seeOther(URI.create(whole.sample().href() + "?recorded=" + form.path()))
            .build();
      }
    }
    FormView<LaboratoryForm> shown = empty.posted(reader, faults);
    if (!faults.isEmpty()) {
      return page(UNPROCESSABLE, Templates.sheet(frame, whole.sample(), shown));
    }
    ResultPreview preview =
        new ResultPreview(pages.words().texts("laboratory"), pages.words().words());
    return page(
        200,
        Templates.checked(
            frame,
            whole.sample(),
            shown,
            preview.of(
                read.orElseThrow(),
                whole.germinationTests(entry -> corrected.filter(entry::equals).isEmpty())),
            shown.filled().stream().map(field -> entered(field, frame)).toList(),
            clock.instant().truncatedTo(ChronoUnit.MILLIS).toString()));
  }

  private Entered entered(Field field, PageFrame frame) {
    return new Entered(
        field.label(), CheckStep.shown(field, frame.form(), pages.words().texts("book")));
  }

  private Response page(int status, TemplateInstance page) {
    return Response.status(status).entity(pages.render(page)).build();
  }

  private FormView<LaboratoryForm> sheet(
      LaboratoryForm form,
      LaboratorySamples.Whole whole,
      Optional<Entry> corrected,
      PageFrame frame) {
    LaboratoryFields fields = fields(whole, frame);
    return corrected
        .map(entry -> fields.correcting(form, entry))
        .orElseGet(() -> fields.sheet(form))
        .inZone(frame.form(), pages.words().texts("book"));
  }

  private LaboratoryFields fields(LaboratorySamples.Whole whole, PageFrame frame) {
    return new LaboratoryFields(whole, pages.words().texts("laboratory"), frame.form(), clock);
  }

  private ObjectNode fact(
      FormView<LaboratoryForm> sheet,
      FormReader reader,
      Optional<Entry> corrected,
      LaboratorySamples.Whole whole,
      PageFrame frame) {
    ObjectNode fact =
        reader.fact(sheet, caller.get().personId(), CheckStep.keyedIn(reader, clock.instant()));
    corrected.ifPresent(
        entry -> {
          ObjectNode header = fact.withObjectProperty("header");
          // the form knows minutes; what nobody changed keeps its seconds
          Instant happenedAt = entry.header().getHappenedAt();
          if (reader
              .value(FormParts.HAPPENED_AT)
              .equals(fields(whole, frame).localTime(happenedAt))) {
            header.put("happenedAt", happenedAt.toString());
          }
        });
    return fact;
  }

  private void unchanged(Map<String, List<Field.Fault>> faults) {
    faults.put("", List.of(new Field.Fault(pages.words().texts("laboratory").of("unchanged"))));
  }

  /**
   * The result that is corrected.
   *
   * @param factId empty for a new result
   * @param by id of the correction, which may have gone in already where a page is sent twice
   */
  private Optional<Entry> corrected(
      LaboratoryForm form, LaboratorySamples.Whole whole, String factId, String by) {
    if (factId == null || factId.isEmpty()) {
      return Optional.empty();
    }
    Entry found =
        whole.own().stream()
            .filter(entry -> entry.header().getFactId().equals(factId))
            .filter(entry -> LaboratoryForm.of(entry.fact()).filter(form::equals).isPresent())
            .findFirst()
            .orElseThrow(
                () -> ApiProblem.notFound(new RecordDetail.NoResult(Given.text(factId, false))));
    Optional<String> supersededBy = found.superseded().map(Entry.Superseded::byFactId);
    if (supersededBy.filter(id -> !id.equals(by)).isPresent()) {
      throw new ApiProblem(
          ProblemKind.REQUEST_REFUSED,
          new RecordDetail.ReplacedResult(
              Given.text(factId, false), Given.text(supersededBy.orElseThrow(), false)));
    }
    return Optional.of(found);
  }

  private static LaboratoryForm known(String path) {
    return FactForm.at(path, LaboratoryForm.values())
        .orElseThrow(
            () -> ApiProblem.notFound(new AddressDetail.NoLaboratoryForm(Given.text(path, false))));
  }
}
