package org.kornspur.api.web.map;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.kornspur.api.kafka.RulesInForce;
import org.kornspur.api.problem.ApiProblem;
import org.kornspur.api.query.VisibleData;
import org.kornspur.api.query.view.NeighboursView;
import org.kornspur.api.readmodel.StandingIndexRow;
import org.kornspur.api.web.map.SeasonMapData.Conflict;
import org.kornspur.api.web.map.SeasonMapData.Place;
import org.kornspur.contract.FieldCropDeclared;
import org.kornspur.contract.GeoPoint;
import org.kornspur.contract.PollenSourceSeen;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.Report.Neighbour;
import org.kornspur.processors.gates.IsolationSources;
import org.kornspur.processors.ground.FloweringWindow;
import org.kornspur.processors.ground.InvalidOutline;
import org.kornspur.processors.ground.Outline;
import org.kornspur.processors.standards.Rulebooks;
import org.kornspur.standing.StandingState;

/** Gathers the ground of a season, as far as the caller may see it. */
@ApplicationScoped
public class SeasonMapAssembler {
  private static final int OF_A_SOURCE = 2;
  private static final Comparator<Place> WORST_FIRST =
      Comparator.<Place>comparingInt(
              place -> place.state().map(SeasonMapAssembler::urgency).orElse(OF_A_SOURCE))
          .thenComparing(Place::subject);

  @Inject VisibleData data;
  @Inject RulesInForce rules;
  @Inject PlannedOnMap planned;

  SeasonMapData of(int year) {
    Rulebooks rulebooks = rules.rulebooks();
    List<Place> places = new ArrayList<>();
    List<Conflict> conflicts = new ArrayList<>();
    List<String> undrawn = new ArrayList<>();
    Map<Subject, Neighbour> seen = new TreeMap<>();
    for (StandingIndexRow row : data.matching(one -> isCropOf(one, year))) {
      Dossier crop = data.dossier(row.subject());
      Optional<FieldCropDeclared> declared = crop.crop().filter(data::sees);
      if (declared.isEmpty()) {
        continue;
      }
      Optional<IsolationSources> ground =
          rulebooks
              .find(declared.get().getRulebookId())
              .flatMap(book -> IsolationSources.of(crop, book));
      drawable(declared.get().getOutline())
          .ifPresentOrElse(
              outline -> places.add(crop(row, crop, declared.get(), outline, ground)),
              () -> undrawn.add(row.subject().id()));
      ground.ifPresent(found -> conflicts.addAll(conflicts(row.subject(), found)));
      crop.neighbours().stream()
          .filter(near -> near.sourceKind().isPresent())
          .forEach(near -> seen.putIfAbsent(near.source(), near));
    }
    seen.values().forEach(near -> source(near).ifPresent(places::add));
    places.sort(WORST_FIRST);
    return new SeasonMapData(
        year, List.copyOf(places), List.copyOf(conflicts), List.copyOf(undrawn), planned.of(year));
  }

  /**
   * Where a crop or source lies.
   *
   * @throws ApiProblem if it is not known, not to be seen, or cannot be drawn
   */
  Outline outline(Subject subject) {
    return (switch (subject.kind()) {
          case CROP ->
              data.dossier(subject).crop().filter(data::sees).map(FieldCropDeclared::getOutline);
          case SOURCE -> sighting(subject).map(PollenSourceSeen::getOutline);
          case LOT, HYBRID, ENTERPRISE -> Optional.<List<GeoPoint>>empty();
        })
        .flatMap(SeasonMapAssembler::drawable)
        .orElseThrow(() -> data.unknown(subject));
  }

  private static boolean isCropOf(StandingIndexRow row, int year) {
    return row.subject().kind() == Subject.Kind.CROP
        && row.material().filter(of -> of.getCropYear() == year).isPresent();
  }

  private static Place crop(
      StandingIndexRow row,
      Dossier crop,
      FieldCropDeclared declared,
      Outline outline,
      Optional<IsolationSources> ground) {
    return new Place(
        row.subject(),
        Optional.of(declared.getFieldId()),
        Optional.of(row.state()),
        Optional.empty(),
        outline,
        crop.flowering(),
        ground.map(IsolationSources::usual).filter(asked -> asked.value() > 0));
  }

  private Optional<Place> source(Neighbour near) {
    return sighting(near.source())
        .map(PollenSourceSeen::getOutline)
        .flatMap(SeasonMapAssembler::drawable)
        .map(
            outline ->
                new Place(
                    near.source(),
                    Optional.empty(),
                    Optional.empty(),
                    near.sourceKind(),
                    outline,
                    FloweringWindow.known(near.sheddingFrom(), near.sheddingTo()),
                    Optional.empty()));
  }

  /** What counts last of a source. */
  private Optional<PollenSourceSeen> sighting(Subject source) {
    return data.countingFacts(source).stream()
        .filter(data::sees)
        .filter(PollenSourceSeen.class::isInstance)
        .map(PollenSourceSeen.class::cast)
        .reduce((earlier, later) -> later);
  }

  private List<Conflict> conflicts(Subject crop, IsolationSources ground) {
    return ground.surestOfEach().values().stream()
        .filter(IsolationSources.Source::isTooNear)
        .map(
            source ->
                new Conflict(
                    crop,
                    source.neighbour(),
                    NeighboursView.isTold(source.neighbour(), data.visibility()),
                    source.limit(),
                    source.isCertain(),
                    source.confirmed()))
        .sorted(
            Comparator.comparingDouble((Conflict conflict) -> conflict.neighbour().distanceM())
                .thenComparing(conflict -> conflict.neighbour().source()))
        .toList();
  }

  private static int urgency(StandingState state) {
    return switch (state) {
      case NOT_FIT -> 0;
      case EVIDENCE_OWED, UNKNOWN -> 1;
      case FIT -> OF_A_SOURCE + 1;
    };
  }

  /** A correction may have spoilt what could be drawn before. */
  private static Optional<Outline> drawable(List<GeoPoint> corners) {
    try {
      return Optional.of(Outline.of(corners));
    } catch (InvalidOutline spoilt) {
      return Optional.empty();
    }
  }
}
