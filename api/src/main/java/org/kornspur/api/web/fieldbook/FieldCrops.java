package org.kornspur.api.web.fieldbook;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.LocalDate;
import java.time.Year;
import java.time.ZoneId;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.problem.RecordDetail;
import org.kornspur.api.query.QueryService;
import org.kornspur.api.query.StandingSentences;
import org.kornspur.api.query.view.PageView;
import org.kornspur.api.query.view.StandingLine;
import org.kornspur.api.query.view.StandingView;
import org.kornspur.api.readmodel.StandingQuery;
import org.kornspur.api.text.Addresses;
import org.kornspur.api.web.Frame;
import org.kornspur.contract.FieldCropDeclared;
import org.kornspur.contract.FieldInspection;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.ingest.problem.Given;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.InheritedFinding;
import org.kornspur.standing.StandingState;
import org.kornspur.standing.VerdictState;

/** Finds the crops that a person works in; what the person may not see is not found. */
@ApplicationScoped
public class FieldCrops {
  /** Seasons before this one that may be looked at, and the one that is sown this autumn. */
  private static final int SEASONS_BACK = 4;

  private static final int LOTS_OFFERED = 200;

  /** An id stands first among those that begin with it, but for its letters in other case. */
  private static final int SAME_BEGINNING = 20;

  /** Weight of inherited trouble that makes a crop not fit. */
  @Inject QueryService queries;

  @Inject StandingSentences sentences;

  /** Years of harvest to choose from, the latest first. */
  static List<Integer> seasons() {
    int latest = Year.now(ZoneId.systemDefault()).getValue() + 1;
    return IntStream.rangeClosed(0, SEASONS_BACK + 1).map(back -> latest - back).boxed().toList();
  }

  /** The latest season that has a crop; the last of the choice where none has. */
  int latestSeason() {
    List<Integer> seasons = seasons();
    return seasons.stream()
        .filter(year -> queries.list(crops(year, Optional.empty(), 1, 1)).total() > 0)
        .findFirst()
        .orElse(seasons.get(1));
  }

  PageView<StandingLine> page(int season, Optional<String> idPrefix, int page, int size) {
    return queries.list(crops(season, idPrefix, page, size));
  }

  /**
   * One crop, with its visits and the seed that may be sown on it.
   *
   * @throws ApiProblem if it is not declared, or not to be seen
   */
  FieldCrop crop(String cropId, Frame frame) {
    Optional<StandingLine> line =
        queries.list(exactly(cropId)).items().stream()
            .filter(found -> found.id().equals(cropId))
            .findFirst();
    FieldCrop crop = card(cropId, line, frame);
    List<FieldCrop.SeedLot> lots =
        queries.list(lotsFor(crop)).items().stream()
            .filter(lot -> lot.leftKg() > 0 && lot.state() != StandingState.NOT_FIT)
            .map(
                lot ->
                    new FieldCrop.SeedLot(
                        lot.id(),
                        lot.material() == null ? "" : frame.trade().seed(lot.material().kind()),
                        frame.form().kg(lot.leftKg())))
            .toList();
    return new FieldCrop(
        crop.id(),
        crop.fieldId(),
        crop.href(),
        crop.role(),
        crop.hybridId(),
        crop.seedId(),
        crop.category(),
        crop.cropYear(),
        crop.holder(),
        crop.state(),
        crop.flowering(),
        crop.state() == StandingState.NOT_FIT
            ? reasons(queries.view(Subject.crop(cropId)), frame)
            : List.of(),
        crop.owed(),
        crop.visits(),
        lots);
  }

  /** The same without reasons and seed lots, for a list. */
  FieldCrop card(StandingLine line, Frame frame) {
    return card(line.id(), Optional.of(line), frame);
  }

  private FieldCrop card(String cropId, Optional<StandingLine> line, Frame frame) {
    Dossier dossier = dossier(cropId);
    FieldCropDeclared declared = dossier.crop().orElseThrow(() -> undeclared(cropId));
    return new FieldCrop(
        cropId,
        declared.getFieldId(),
        href(cropId),
        declared.getRole(),
        declared.getHybridId(),
        declared.getSeedComponentId(),
        frame.trade().category(declared.getCategory().name()),
        declared.getCropYear(),
        declared.getEnterpriseId(),
        line.map(StandingLine::state).orElse(StandingState.UNKNOWN),
        flowering(declared, frame),
        List.of(),
        line.map(StandingLine::gatesOwed).orElse(List.of()).stream()
            .map(frame.trade()::gate)
            .toList(),
        visits(dossier, frame),
        List.of());
  }

  /**
   * The dossier of a crop.
   *
   * @throws ApiProblem if nothing is known of it
   */
  Dossier dossier(String cropId) {
    return queries.wholeDossier(Subject.crop(cropId));
  }

  /** Page of a crop in the field book. */
  static String href(String cropId) {
    return "/field-book" + Addresses.of(Subject.crop(cropId)).substring(Addresses.ROOT.length());
  }

  /** What the page of the crop says against it; its own gates first. */
  private List<FieldCrop.Reason> reasons(StandingView standing, Frame frame) {
    return Stream.concat(
            standing.gates().stream()
                .filter(gate -> gate.state() == VerdictState.NOT_MET)
                .map(gate -> new FieldCrop.Reason(frame.trade().gate(gate.gate()), gate.line())),
            standing.inherited().stream()
                .filter(trouble -> trouble.weight() == InheritedFinding.Weight.CONDEMNS)
                .map(
                    trouble ->
                        new FieldCrop.Reason(sentences.inheritedGate(trouble), trouble.sentence())))
        .toList();
  }

  private static Optional<String> flowering(FieldCropDeclared declared, Frame frame) {
    LocalDate from = declared.getFloweringFrom();
    LocalDate to = declared.getFloweringTo();
    return from == null || to == null
        ? Optional.empty()
        : Optional.of(frame.form().day(from) + " – " + frame.form().day(to));
  }

  private static List<FieldCrop.Visit> visits(Dossier dossier, Frame frame) {
    Map<Integer, FieldCrop.Visit> byNumber = new TreeMap<>();
    for (FieldInspection visit : dossier.facts(FieldInspection.class)) {
      byNumber.put(
          visit.getVisit(),
          new FieldCrop.Visit(
              visit.getVisit(),
              frame.form().day(visit.getHeader().getHappenedAt()),
              visit.getBbchStage()));
    }
    return List.copyOf(byNumber.values());
  }

  private static ApiProblem undeclared(String cropId) {
    return ApiProblem.notFound(new RecordDetail.NoCrop(Given.text(cropId, false)));
  }

  private static StandingQuery crops(int season, Optional<String> id, int page, int size) {
    return query(Subject.Kind.CROP, Optional.empty(), Optional.of(season), id, page, size);
  }

  private static StandingQuery exactly(String cropId) {
    return query(
        Subject.Kind.CROP,
        Optional.empty(),
        Optional.empty(),
        Optional.of(cropId),
        1,
        SAME_BEGINNING);
  }

  /** Seed of the season before; older seed is typed by its id. */
  private static StandingQuery lotsFor(FieldCrop crop) {
    return query(
        Subject.Kind.LOT,
        Optional.of(crop.hybridId()),
        Optional.of(crop.cropYear() - 1),
        Optional.empty(),
        1,
        LOTS_OFFERED);
  }

  private static StandingQuery query(
      Subject.Kind kind,
      Optional<String> hybridId,
      Optional<Integer> season,
      Optional<String> id,
      int page,
      int size) {
    return new StandingQuery(
        Set.of(kind),
        Set.of(),
        Set.of(),
        hybridId,
        Optional.empty(),
        Optional.empty(),
        season,
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        false,
        id,
        StandingQuery.Order.ID,
        page,
        size);
  }
}
