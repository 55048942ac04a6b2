package org.kornspur.api.web.record;

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
import java.time.temporal.ChronoUnit;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.apache.avro.specific.SpecificRecord;
import org.kornspur.api.command.fact.SubmissionPreview;
import org.kornspur.api.problem.AccessDetail;
import org.kornspur.api.problem.AddressDetail;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.problem.ProblemKind;
import org.kornspur.api.security.CurrentCaller;
import org.kornspur.api.security.Permission;
import org.kornspur.api.security.RequiresPermission;
import org.kornspur.api.text.Addresses;
import org.kornspur.api.text.PageTexts;
import org.kornspur.api.web.NavigationItem;
import org.kornspur.api.web.PageFrame;
import org.kornspur.api.web.PageFrames;
import org.kornspur.api.web.form.CheckStep;
import org.kornspur.api.web.form.Field;
import org.kornspur.api.web.form.Field.Option;
import org.kornspur.api.web.form.FormReader;
import org.kornspur.api.web.form.FormSubmission;
import org.kornspur.api.web.form.FormView;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.problem.Given;
import org.kornspur.processors.dossier.Entry;

/**
 * The form of a type of fact. What was typed is checked and shown with what it comes to; only what
 * was shown so is then recorded.
 */
@Path("/record/{kind}")
@Produces(MediaType.TEXT_HTML + ";charset=UTF-8")
public class FactFormPage {
  private static final int UNPROCESSABLE = 422;
  private static final String SUPERSEDES = "header.correction.supersedes";
  private static final String WITHDRAWN = "withdrawnFactId";
  private static final String REFUSED = "refused";
  private static final String MORE = "more:";

  private final Clock clock = Clock.systemUTC();

  @Inject PageFrames pages;
  @Inject CurrentCaller caller;
  @Inject FormPrefills bases;
  @Inject DefaultValues firstValues;
  @Inject KnownIds known;
  @Inject LastEntries last;
  @Inject SubmissionPreview submissionPreview;
  @Inject FactPreview preview;
  @Inject FormSubmission sending;

  /**
   * What stands around a form.
   *
   * @param name of its type
   * @param explained what a fact of this type is
   * @param refused id of the refused input in whose place it is sent; else empty
   * @param lists what is offered while typing, by the id of the list; none where nothing is typed
   */
  public record Around(
      String name,
      String explained,
      String refused,
      boolean takesBack,
      Map<String, List<Option>> lists) {}

  @CheckedTemplate(basePath = "web/record")
  static class Templates {
    static native TemplateInstance sheet(
        PageFrame page, FormView<ContractForm> sheet, Around around, String recorded);

    static native TemplateInstance checked(
        PageFrame page,
        FormView<ContractForm> sheet,
        Around around,
        List<FieldComparison> fields,
        FactPreview.Shown shown,
        String checkedAt);
  }

  @GET
  @RequiresPermission(Permission.POST_FACTS)
  public String form(
      @PathParam("kind") String path,
      @QueryParam("corrects") String corrects,
      @QueryParam("withdraws") String withdraws,
      @QueryParam("refused") String refused,
      @QueryParam("lot") String lot,
      @QueryParam("crop") String crop,
      @QueryParam("cropYear") String cropYear,
      @QueryParam("outline") String outline,
      @QueryParam("next") String next,
      @QueryParam("recorded") String recorded) {
    ContractForm form = allowed(path);
    PageFrame frame = pages.around(NavigationItem.RECORD);
    FormPrefill basis = basis(form, text(corrects), text(withdraws), text(refused), "");
    FormView<ContractForm> sheet =
        firstValues.in(
            start(form, basis, frame),
            basis,
            new DefaultValues.Given(text(lot), text(crop), text(cropYear), text(outline)),
            text(next).equals("true"));
    return pages.render(
        Templates.sheet(
            frame, inZone(sheet, frame), around(sheet, basis, known.of(sheet)), text(recorded)));
  }

  @POST
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  @RequiresPermission(Permission.POST_FACTS)
  public Response step(@PathParam("kind") String path, MultivaluedMap<String, String> sent) {
    ContractForm form = allowed(path);
    PageFrame frame = pages.around(NavigationItem.RECORD);
    MultivaluedMap<String, String> posted = FormValues.withoutEmptyRows(sent);
    FormReader reader = new FormReader(posted, frame.form(), texts("book"));
    FormPrefill basis = posted(form, reader);
    String step = reader.value("step");
    ContractFields fields = fields();
    FormView<ContractForm> empty =
        fields.sheet(
            form,
            basis.corrects(),
            list -> {
              int rows = FormValues.rows(posted, list);
              return step.equals(MORE + list) ? fields.rows(form, list, rows) + 1 : rows;
            });
    if (step.startsWith(MORE) || step.equals("change")) {
      return page(200, frame, empty.posted(reader, Map.of()), basis);
    }
    ObjectNode fact =
        reader.fact(empty, caller.get().personId(), CheckStep.keyedIn(reader, clock.instant()));
    new FormValues(frame.form()).keepMoment(fact, reader, basis.fact());
    Map<String, List<Field.Fault>> faults = new LinkedHashMap<>(reader.faults());
    Optional<SpecificRecord> read = faults.isEmpty() ? read(fact, basis, faults) : Optional.empty();
    if (faults.isEmpty() && step.startsWith("record")) {
      faults.putAll(
          basis.refused().isPresent()
              ? sending.replay(fact, basis.refused().get())
              : sending.send(fact));
      if (faults.isEmpty()) {
        last.keep(caller.get().personId(), empty.posted(reader, Map.of()));
        return recorded(form, reader.value(FormReader.FACT_ID), step);
      }
    }
    FormView<ContractForm> shown = empty.posted(reader, faults);
    return faults.isEmpty()
        ? checked(frame, shown, basis, read.orElseThrow())
        : page(UNPROCESSABLE, frame, shown, basis);
  }

  /** The fact, or what is wrong with it. */
  private Optional<SpecificRecord> read(
      ObjectNode json, FormPrefill basis, Map<String, List<Field.Fault>> faults) {
    Optional<SpecificRecord> fact = sending.read(json, faults);
    if (fact.isEmpty()) {
      return fact;
    }
    if (basis.corrects().isPresent()
        && basis.mended().filter(old -> CheckStep.saysTheSame(json, old.fact())).isPresent()) {
      faults.put("", List.of(new Field.Fault(texts("record").of("unchanged"))));
    }
    if (faults.isEmpty()) {
      faults.putAll(sending.byField(submissionPreview.problems(fact.get())));
    }
    return fact;
  }

  private static Response recorded(ContractForm form, String factId, String step) {
    String address =
        step.equals("record-next")
            ? form.href() + "?next=true&recorded=" + Addresses.part(factId)
            : "/record?recorded=" + form.path() + "&fact=" + Addresses.part(factId);
    return Response.seeOther(URI.create(address)).build();
  }

  private Response checked(
      PageFrame frame, FormView<ContractForm> shown, FormPrefill basis, SpecificRecord fact) {
    FormView<ContractForm> before =
        basis
            .mended()
            .filter(entry -> basis.corrects().isPresent())
            .map(entry -> start(shown.form(), basis, frame))
            .orElse(shown);
    return Response.ok(
            pages.render(
                Templates.checked(
                    frame,
                    shown,
                    around(shown, basis, Map.of()),
                    FieldComparison.of(before, shown, frame.form(), texts("book")),
                    preview.of(fact, basis.mended().map(Entry::fact)),
                    clock.instant().truncatedTo(ChronoUnit.MILLIS).toString())))
        .build();
  }

  private Response page(
      int status, PageFrame frame, FormView<ContractForm> sheet, FormPrefill basis) {
    return Response.status(status)
        .entity(
            pages.render(
                Templates.sheet(
                    frame, inZone(sheet, frame), around(sheet, basis, known.of(sheet)), "")))
        .build();
  }

  private FormView<ContractForm> inZone(FormView<ContractForm> sheet, PageFrame frame) {
    return sheet.inZone(frame.form(), texts("book"));
  }

  /** A form with what it begins with, before anything was typed. */
  private FormView<ContractForm> start(ContractForm form, FormPrefill basis, PageFrame frame) {
    FormView<ContractForm> sheet =
        fields().sheet(form, basis.corrects(), list -> FormValues.rows(basis.fact(), list));
    return new FormValues(frame.form()).filled(sheet, basis.fact());
  }

  private FormPrefill posted(ContractForm form, FormReader reader) {
    String by = reader.value(FormReader.FACT_ID);
    String refused = reader.value(REFUSED);
    return form.type() == FactType.WITHDRAWAL && refused.isEmpty()
        ? bases.takingBackTyped(reader.value(WITHDRAWN), by)
        : basis(form, reader.value(SUPERSEDES), "", refused, by);
  }

  private FormPrefill basis(
      ContractForm form, String corrects, String withdraws, String refused, String by) {
    if (!refused.isEmpty()) {
      return bases.mending(refused);
    }
    if (!corrects.isEmpty()) {
      return bases.correcting(form, corrects, by);
    }
    return withdraws.isEmpty() ? bases.empty() : bases.takingBack(withdraws, by);
  }

  private Around around(
      FormView<ContractForm> sheet, FormPrefill basis, Map<String, List<Option>> lists) {
    return new Around(
        pages.words().terms().fact(sheet.form().type()),
        fields().explained(sheet.form()),
        basis.refused().orElse(""),
        sheet.form().type() == FactType.WITHDRAWAL,
        lists);
  }

  private ContractFields fields() {
    return new ContractFields(pages.words().language(), texts("record"));
  }

  private PageTexts texts(String name) {
    return pages.words().texts(name);
  }

  private static String text(String parameter) {
    return parameter == null ? "" : parameter;
  }

  private ContractForm allowed(String path) {
    ContractForm form =
        ContractForm.at(path)
            .orElseThrow(
                () -> ApiProblem.notFound(new AddressDetail.NoRecordForm(Given.text(path, false))));
    if (!caller.get().may(Permission.toPost(form.type()))) {
      throw new ApiProblem(ProblemKind.FORBIDDEN, new AccessDetail.MayNotRecord());
    }
    return form;
  }
}
