package org.kornspur.api.web.fieldbook;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
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
import org.kornspur.api.query.StandingHeadlines;
import org.kornspur.api.query.VisibleData;
import org.kornspur.api.query.view.PageView;
import org.kornspur.api.query.view.StandingLineView;
import org.kornspur.api.query.view.StandingView;
import org.kornspur.api.readmodel.StandingQuery;
import org.kornspur.api.web.PageFrame;
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

  @Inject QueryService queries;
  @Inject VisibleData data;
  @Inject StandingHeadlines headlines;

  /** Years of harvest to choose from, the latest first. */
  static List<Integer> seasons() {
    int latest = Year.now(ZoneId.systemDefault()).getValue() + 1;
    return IntStream.rangeClosed(0, SEASONS_BACK + 1).map(back -> latest - back).boxed().toList();
  }

  /** The latest season that has a crop; the last of the choice where none has. */
  int latestSeason() {
    List<Integer> seasons = seasons();
    return seasons.stream()
        .filter(year -> page(year, Optional.empty(), 1, 1).total() > 0)
        .findFirst()
        .orElse(seasons.get(1));
  }

  PageView<StandingLineView> page(int season, Optional<String> idPrefix, int page, int size) {
    return list(Subject.Kind.CROP, Optional.empty(), Optional.of(season), idPrefix, page, size);
  }

  /**
   * One crop, with its visits and the seed that may be sown on it.
   *
   * @throws ApiProblem if it is not declared, or not to be seen
   */
  FieldCrop crop(String cropId, PageFrame frame) {
    Optional<StandingLineView> line =
        list(
                Subject.Kind.CROP,
                Optional.empty(),
                Optional.empty(),
                Optional.of(cropId),
                1,
                SAME_BEGINNING)
            .items()
            .stream()
            .filter(found -> found.id().equals(cropId))
            .findFirst();
    FieldCrop card = card(cropId, line, frame);
    return new FieldCrop(
        card.declared(),
        card.state(),
        card.state() == StandingState.NOT_FIT
            ? reasons(queries.view(Subject.crop(cropId)), frame)
            : List.of(),
        card.owed(),
        card.visits(),
        lotsFor(card.declared(), frame));
  }

  /** The same without reasons and seed lots, for a list. */
  FieldCrop card(StandingLineView line, PageFrame frame) {
    return card(line.id(), Optional.of(line), frame);
  }

  /** The same with no more than its state. */
  FieldCrop card(String cropId, StandingState state) {
    return card(cropId, state, List.of());
  }

  private FieldCrop card(String cropId, Optional<StandingLineView> line, PageFrame frame) {
    return card(
        cropId,
        line.map(StandingLineView::state).orElse(StandingState.UNKNOWN),
        line.map(StandingLineView::gatesOwed).orElse(List.of()).stream()
            .map(frame.trade()::gate)
            .toList());
  }

  private FieldCrop card(String cropId, StandingState state, List<String> owed) {
    Dossier dossier = data.dossier(Subject.crop(cropId));
    return new FieldCrop(
        dossier
            .crop()
            .orElseThrow(
                () -> ApiProblem.notFound(new RecordDetail.NoCrop(Given.text(cropId, false)))),
        state,
        List.of(),
        owed,
        visits(dossier),
        List.of());
  }

  /** What the page of the crop says against it; its own gates first. */
  private List<FieldCrop.Reason> reasons(StandingView standing, PageFrame frame) {
    return Stream.concat(
            standing.gates().stream()
                .filter(gate -> gate.state() == VerdictState.NOT_MET)
                .map(gate -> new FieldCrop.Reason(frame.trade().gate(gate.gate()), gate.line())),
            standing.inherited().stream()
                .filter(trouble -> trouble.weight() == InheritedFinding.Weight.CONDEMNS)
                .map(
                    trouble ->
                        new FieldCrop.Reason(headlines.inheritedGate(trouble), trouble.sentence())))
        .toList();
  }

  /** The last count of each visit. */
  private static List<FieldInspection> visits(Dossier dossier) {
    Map<Integer, FieldInspection> byNumber = new TreeMap<>();
    dossier.facts(FieldInspection.class).forEach(visit -> byNumber.put(visit.getVisit(), visit));
    return List.copyOf(byNumber.values());
  }

  /** Seed of the season before; older seed is typed by its id. */
  private List<FieldCrop.SeedLot> lotsFor(FieldCropDeclared crop, PageFrame frame) {
    return list(
            Subject.Kind.LOT,
            Optional.of(crop.getHybridId()),
            Optional.of(crop.getCropYear() - 1),
            Optional.empty(),
            1,
            LOTS_OFFERED)
        .items()
        .stream()
        .filter(lot -> lot.leftKg() > 0 && lot.state() != StandingState.NOT_FIT)
        .map(
            lot ->
                new FieldCrop.SeedLot(
                    lot.id(),
                    lot.material() == null ? "" : frame.trade().seed(lot.material().kind()),
                    frame.form().kg(lot.leftKg())))
        .toList();
  }

  private PageView<StandingLineView> list(
      Subject.Kind kind,
      Optional<String> hybridId,
      Optional<Integer> season,
      Optional<String> id,
      int page,
      int size) {
    return queries.list(
        new StandingQuery(
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
            size));
  }
}
