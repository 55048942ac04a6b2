package org.kornspur.api.web.laboratory;

import jakarta.enterprise.context.RequestScoped;
import jakarta.inject.Inject;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.Predicate;
import org.kornspur.api.kafka.ProcessorsClient;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.problem.RecordDetail;
import org.kornspur.api.query.QueryService;
import org.kornspur.api.query.RequestWords;
import org.kornspur.api.query.VisibleData;
import org.kornspur.api.readmodel.FactReadModel;
import org.kornspur.api.readmodel.ReadModel;
import org.kornspur.api.readmodel.ResultPage;
import org.kornspur.api.readmodel.SampleIndex;
import org.kornspur.api.readmodel.StandingIndexRow;
import org.kornspur.api.security.Caller;
import org.kornspur.api.security.CurrentCaller;
import org.kornspur.api.security.Permission;
import org.kornspur.api.text.Addresses;
import org.kornspur.api.web.PageFrame;
import org.kornspur.contract.GerminationTest;
import org.kornspur.contract.Sampling;
import org.kornspur.ingest.contract.FactType;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.problem.Given;
import org.kornspur.processors.dossier.Entry;
import org.kornspur.processors.verdict.Gate;
import org.kornspur.standing.GateVerdict;
import org.kornspur.standing.VerdictState;

/**
 * The samples that are assigned to the laboratory of who asks. Which tests are asked for follows
 * from the gates that the lot's rulebook has; of what they found, nothing is told that does not
 * rest on this laboratory's own results alone.
 */
@RequestScoped
public class LaboratorySamples {
  private static final Set<Gate> IN_THE_LABORATORY =
      EnumSet.of(
          Gate.GERMINATION, Gate.ANALYTICAL_PURITY, Gate.OTHER_SEEDS, Gate.ERGOT, Gate.MOISTURE);

  private final Clock clock = Clock.systemUTC();

  @Inject CurrentCaller caller;
  @Inject FactReadModel facts;
  @Inject ReadModel readModel;
  @Inject ProcessorsClient processors;
  @Inject QueryService queries;
  @Inject VisibleData data;
  @Inject RequestWords requestWords;

  /** A sample with the facts that its laboratory may see of it. */
  record Whole(LaboratorySample sample, Sampling sampling, List<Entry> own) {

    /** Its germination tests that count, of those that are wanted; the first first. */
    List<GerminationTest> germinationTests(Predicate<Entry> wanted) {
      return own.stream()
          .filter(Entry::counts)
          .filter(wanted)
          .map(Entry::fact)
          .filter(GerminationTest.class::isInstance)
          .map(GerminationTest.class::cast)
          .toList();
    }
  }

  private record Judged(SampleIndex.Row row, List<LaboratorySample.Asked> asked, boolean open) {}

  /** The laboratory that who asks works for; empty where the administrator entered none. */
  Optional<String> laboratory() {
    return caller
        .ifKnown()
        .filter(known -> known.may(Permission.TEST_SAMPLES))
        .flatMap(Caller::enterpriseId);
  }

  /** One page of the samples: open ones first, the oldest first, then the latest finished. */
  ResultPage<LaboratorySample> page(int page, int size, PageFrame frame) {
    return page(all(frame), page, size, frame);
  }

  /** Samples of which a gate asks for a test that has no result, or for another; oldest first. */
  ResultPage<LaboratorySample> awaiting(Gate gate, int page, int size, PageFrame frame) {
    List<Judged> awaiting =
        all(frame).stream()
            .filter(
                sample ->
                    sample.asked().stream()
                        .anyMatch(
                            test ->
                                test.gate() == gate
                                    && test.progress() != LaboratorySample.Progress.HAS_RESULT))
            .toList();
    return page(awaiting, page, size, frame);
  }

  private ResultPage<LaboratorySample> page(List<Judged> all, int page, int size, PageFrame frame) {
    List<LaboratorySample> shown =
        all.stream()
            .skip((page - 1L) * size)
            .limit(size)
            .map(sample -> shown(sample, frame))
            .toList();
    return new ResultPage<>(page, size, all.size(), shown);
  }

  private List<Judged> all(PageFrame frame) {
    Comparator<Judged> byAge =
        Comparator.comparing((Judged sample) -> sample.row().assignedAt())
            .thenComparing(sample -> sample.row().lotId())
            .thenComparing(sample -> sample.row().sampleId());
    return laboratory().map(facts.samples()::of).orElse(List.of()).stream()
        .map(row -> judged(row, frame))
        .sorted(
            (one, other) ->
                one.open() != other.open()
                    ? Boolean.compare(other.open(), one.open())
                    : one.open() ? byAge.compare(one, other) : byAge.compare(other, one))
        .toList();
  }

  /**
   * One sample.
   *
   * @throws ApiProblem if it is not assigned to the laboratory of who asks, which is answered like
   *     a sample that is not known
   */
  Whole sample(String lotId, String sampleId, PageFrame frame) {
    String laboratoryId = laboratory().orElseThrow(() -> notAssigned(lotId, sampleId));
    List<Entry> own =
        processors.entries(Subject.lot(lotId)).stream()
            .filter(entry -> says(entry, "laboratoryId", laboratoryId))
            .filter(entry -> says(entry, "sampleId", sampleId))
            .sorted(Entry.BY_TIME_THEN_ID)
            .toList();
    Sampling sampling =
        own.stream()
            .filter(Entry::counts)
            .map(Entry::fact)
            .filter(Sampling.class::isInstance)
            .map(Sampling.class::cast)
            .reduce((earlier, later) -> later)
            .orElseThrow(() -> notAssigned(lotId, sampleId));
    List<Entry> results =
        own.stream().filter(entry -> !(entry.fact() instanceof Sampling)).toList();
    EnumSet<Gate> tested = EnumSet.noneOf(Gate.class);
    results.stream()
        .filter(Entry::counts)
        .forEach(entry -> tested.addAll(SampleIndex.testedBy(entry.fact())));
    SampleIndex.Row row =
        new SampleIndex.Row(
            lotId,
            sampleId,
            sampling.getHeader().getHappenedAt(),
            sampling.getHeader().getRecordedAt(),
            tested,
            results.stream()
                .filter(Entry::counts)
                .anyMatch(entry -> ResultPreview.foundErgot(entry.fact())));
    return new Whole(shown(judged(row, frame), frame), sampling, results);
  }

  private Judged judged(SampleIndex.Row row, PageFrame frame) {
    if (row.tested().containsAll(IN_THE_LABORATORY) && !owesAny(row.lotId())) {
      return new Judged(row, List.of(), false);
    }
    List<LaboratorySample.Asked> asked = asked(row, frame);
    boolean open =
        asked.isEmpty()
            ? row.tested().isEmpty()
            : asked.stream()
                .anyMatch(test -> test.progress() != LaboratorySample.Progress.HAS_RESULT);
    return new Judged(row, asked, open);
  }

  /** Spares reading the whole standing of the many lots that are done. */
  private boolean owesAny(String lotId) {
    return readModel
        .standings()
        .row(Subject.lot(lotId))
        .map(StandingIndexRow::owed)
        .orElse(List.of())
        .stream()
        .anyMatch(gate -> IN_THE_LABORATORY.stream().anyMatch(at -> at.name().equals(gate)));
  }

  private List<LaboratorySample.Asked> asked(SampleIndex.Row row, PageFrame frame) {
    List<GateVerdict> verdicts =
        readModel
            .standing(Subject.lot(row.lotId()))
            .map(standing -> List.copyOf(standing.getVerdicts()))
            .orElse(List.of());
    return IN_THE_LABORATORY.stream()
        .filter(gate -> verdicts.stream().anyMatch(verdict -> is(verdict, gate)))
        .map(gate -> asked(gate, row, verdicts, frame))
        .toList();
  }

  private LaboratorySample.Asked asked(
      Gate gate, SampleIndex.Row row, List<GateVerdict> verdicts, PageFrame frame) {
    Optional<String> again =
        verdicts.stream()
            .filter(verdict -> is(verdict, gate) && verdict.getState() == VerdictState.OWED)
            .filter(this::restsOnOwn)
            .map(requestWords.verdicts()::evidenceLine)
            .findFirst();
    LaboratorySample.Progress progress =
        again.isPresent()
            ? LaboratorySample.Progress.AGAIN
            : row.tested().contains(gate)
                ? LaboratorySample.Progress.HAS_RESULT
                : LaboratorySample.Progress.TO_DO;
    return new LaboratorySample.Asked(
        gate, frame.trade().gate(gate.name()), progress, again.orElse(""));
  }

  private boolean restsOnOwn(GateVerdict verdict) {
    String laboratoryId = laboratory().orElseThrow();
    return !verdict.getFactIds().isEmpty()
        && verdict.getFactIds().stream()
            .allMatch(factId -> facts.samples().isTestOf(laboratoryId, factId));
  }

  private static boolean is(GateVerdict verdict, Gate gate) {
    return verdict.getGate().equals(gate.name());
  }

  private LaboratorySample shown(Judged judged, PageFrame frame) {
    SampleIndex.Row row = judged.row();
    Subject lot = Subject.lot(row.lotId());
    return new LaboratorySample(
        row.lotId(),
        row.sampleId(),
        href(row.lotId(), row.sampleId()),
        category(lot, frame),
        frame.form().day(row.drawnAt()),
        frame.form().day(row.assignedAt()),
        daysSince(row.assignedAt(), frame),
        judged.open(),
        judged.asked().isEmpty() ? asked(row, frame) : judged.asked(),
        LaboratorySample.Treated.of(queries.treatmentOf(lot)),
        row.ergotFound());
  }

  private Optional<String> category(Subject lot, PageFrame frame) {
    return data.row(lot)
        .flatMap(StandingIndexRow::material)
        .map(material -> frame.trade().category(material.getCategory()));
  }

  private long daysSince(Instant assignedAt, PageFrame frame) {
    LocalDate from = assignedAt.atZone(frame.form().zone()).toLocalDate();
    LocalDate today = clock.instant().atZone(frame.form().zone()).toLocalDate();
    return Math.max(0, ChronoUnit.DAYS.between(from, today));
  }

  /** Page of a sample. */
  static String href(String lotId, String sampleId) {
    return "/laboratory/lots/" + Addresses.part(lotId) + "/samples/" + Addresses.part(sampleId);
  }

  /** Form that corrects a result. */
  static String correctHref(String sampleHref, LaboratoryForm form, String factId) {
    return sampleHref + "/" + form.path() + "?corrects=" + Addresses.part(factId);
  }

  private static boolean says(Entry entry, String field, String id) {
    return FactType.text(entry.fact(), field).filter(id::equals).isPresent();
  }

  private static ApiProblem notAssigned(String lotId, String sampleId) {
    return ApiProblem.notFound(
        new RecordDetail.NoSample(Given.text(sampleId, false), Given.text(lotId, false)));
  }
}
