package org.kornspur.api.web.laboratory;

import com.fasterxml.jackson.databind.node.ObjectNode;
import jakarta.enterprise.context.RequestScoped;
import jakarta.inject.Inject;
import jakarta.ws.rs.core.MultivaluedHashMap;
import jakarta.ws.rs.core.MultivaluedMap;
import java.time.Clock;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import org.kornspur.api.security.CurrentCaller;
import org.kornspur.api.text.PageTexts;
import org.kornspur.api.web.PageFrame;
import org.kornspur.api.web.PageFrames;
import org.kornspur.api.web.form.CheckStep;
import org.kornspur.api.web.form.Field;
import org.kornspur.api.web.form.FormParts;
import org.kornspur.api.web.form.FormReader;
import org.kornspur.api.web.form.FormSubmission;
import org.kornspur.api.web.form.FormView;
import org.kornspur.api.web.form.PreviewLine;

/**
 * The lines of the sheet of many samples. Each is the form of one sample, with four replicates of
 * 100 seeds, and is read, checked and sent as that form is.
 */
@RequestScoped
public class GerminationLines {
  private static final String SEEDS = "100";

  private final Clock clock = Clock.systemUTC();

  @Inject PageFrames pages;
  @Inject LaboratorySamples samples;
  @Inject FormSubmission sending;
  @Inject CurrentCaller caller;

  /**
   * A line as it was read.
   *
   * @param fact what it makes; empty where nothing was typed or something is wrong
   * @param wasShown whether its figures were shown before with what they come to
   */
  record Read(GerminationLine line, Optional<ObjectNode> fact, boolean wasShown) {}

  /** A line in which nothing was typed yet. */
  GerminationLine blank(int number, LaboratorySample sample, PageFrame frame) {
    LaboratorySamples.Whole whole = samples.sample(sample.lotId(), sample.sampleId(), frame);
    return new GerminationLine(number, sample, sheet(whole, frame), List.of(), "");
  }

  /**
   * What was typed into a line.
   *
   * @param typed values by the names of the fields; what stands once for all lines under {@code
   *     all.}
   * @throws org.kornspur.api.problem.ApiProblem if the sample is not assigned to the laboratory of
   *     who asks
   */
  Read read(int number, MultivaluedMap<String, String> typed, PageFrame frame) {
    LaboratorySamples.Whole whole =
        samples.sample(value(typed, "lotId"), value(typed, "sampleId"), frame);
    FormView<LaboratoryForm> empty = sheet(whole, frame);
    FormView<LaboratoryForm> shown = empty.posted(reader(typed), Map.of());
    GerminationLine line = new GerminationLine(number, whole.sample(), shown, List.of(), "");
    if (line.blank()) {
      return new Read(line, Optional.empty(), false);
    }
    FormReader reader = reader(complete(typed, empty));
    ObjectNode fact =
        reader.fact(empty, caller.get().personId(), CheckStep.keyedIn(reader, clock.instant()));
    String figures =
        empty.fields().map(field -> reader.value(field.name())).collect(Collectors.joining("|"));
    Map<String, List<Field.Fault>> faults = new LinkedHashMap<>(reader.faults());
    List<PreviewLine> comesTo =
        Optional.of(fact)
            .filter(readable -> faults.isEmpty())
            .flatMap(readable -> sending.read(readable, faults))
            .map(
                test ->
                    new ResultPreview(texts("laboratory"), pages.words().words())
                        .of(test, whole.germinationTests(entry -> true)))
            .orElse(List.of());
    return new Read(
        new GerminationLine(
            number, whole.sample(), empty.posted(reader(typed), faults), comesTo, figures),
        Optional.of(fact).filter(sound -> faults.isEmpty()),
        value(typed, "shown").equals(figures));
  }

  /** Sends the fact of a line; the line with what is wrong, where it did not go in. */
  Optional<GerminationLine> refused(Read read, MultivaluedMap<String, String> typed) {
    Map<String, List<Field.Fault>> faults = sending.send(read.fact().orElseThrow());
    GerminationLine line = read.line();
    return faults.isEmpty()
        ? Optional.empty()
        : Optional.of(
            new GerminationLine(
                line.number(),
                line.sample(),
                line.sheet().posted(reader(typed), faults),
                List.of(),
                line.figures()));
  }

  private FormView<LaboratoryForm> sheet(LaboratorySamples.Whole whole, PageFrame frame) {
    return new LaboratoryFields(whole, texts("laboratory"), frame.form(), clock)
        .sheet(LaboratoryForm.GERMINATION);
  }

  /** With what nobody types in a line: the seeds of a replicate, and what stands once for all. */
  private static MultivaluedMap<String, String> complete(
      MultivaluedMap<String, String> typed, FormView<LaboratoryForm> sheet) {
    MultivaluedMap<String, String> complete = new MultivaluedHashMap<>(typed);
    sheet
        .fields()
        .map(Field::name)
        .filter(name -> name.endsWith(".seeds"))
        .forEach(name -> complete.putSingle(name, SEEDS));
    complete.putSingle(FormParts.HAPPENED_AT, value(typed, "all." + FormParts.HAPPENED_AT));
    if (value(typed, GerminationLine.DOCUMENT).isEmpty()) {
      complete.putSingle(GerminationLine.DOCUMENT, value(typed, "all." + GerminationLine.DOCUMENT));
    }
    return complete;
  }

  private FormReader reader(MultivaluedMap<String, String> typed) {
    return new FormReader(typed, pages.words().form(), texts("book"));
  }

  private PageTexts texts(String bundle) {
    return pages.words().texts(bundle);
  }

  private static String value(MultivaluedMap<String, String> typed, String name) {
    return Optional.ofNullable(typed.getFirst(name)).map(String::strip).orElse("");
  }
}
