package org.kornspur.api.query.advice;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.SortedSet;
import java.util.TreeSet;
import java.util.function.Function;
import org.kornspur.contract.PostControlResult;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.advice.HarvestedLots;
import org.kornspur.processors.advice.HybridityForecast;
import org.kornspur.processors.advice.PredictionAgainstTruth;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.pedigree.Edge;
import org.kornspur.processors.pedigree.Pedigree;

/**
 * The forecast of one crop beside what was found of its harvest.
 *
 * @param rows one for each lot and method; empty where nothing was found yet
 * @param mixedLots lots with results that hold seed of other crops too
 * @param restsOn every subject whose dossier or edges were looked at: as long as none of these
 *     changes, the rest is the same
 * @param complete false where the facts make no forecast
 */
record CropCalibration(
    Subject crop,
    String hybridId,
    List<PredictionAgainstTruth.Row> rows,
    SortedSet<Subject> mixedLots,
    Set<Subject> restsOn,
    boolean complete) {

  /**
   * Forecasts a crop that F1 seed is grown in, if anything was found of its harvest.
   *
   * @param dossiers finds the dossier of any subject; an empty one where nothing is known
   */
  static CropCalibration of(
      Subject crop, String hybridId, Pedigree pedigree, Function<Subject, Dossier> dossiers) {
    Set<Subject> restsOn = new HashSet<>();
    Function<Subject, Dossier> noted =
        subject -> {
          restsOn.add(subject);
          return dossiers.apply(subject);
        };
    HarvestedLots lots = HarvestedLots.of(noted(pedigree, restsOn), crop);
    SortedSet<Subject> mixedLots = new TreeSet<>();
    lots.mixed().stream().filter(lot -> hasResult(noted.apply(lot))).forEach(mixedLots::add);
    List<Dossier> examined =
        lots.ofThisCropAlone().stream().map(noted).filter(CropCalibration::hasResult).toList();
    List<PredictionAgainstTruth.Row> rows = new ArrayList<>();
    boolean complete = true;
    if (!examined.isEmpty()) {
      try {
        rows.addAll(rows(noted.apply(crop), examined, noted));
      } catch (IllegalArgumentException noForecast) {
        complete = false;
      }
    }
    return new CropCalibration(
        crop, hybridId, List.copyOf(rows), mixedLots, Set.copyOf(restsOn), complete);
  }

  private static List<PredictionAgainstTruth.Row> rows(
      Dossier crop, List<Dossier> examined, Function<Subject, Dossier> dossiers) {
    return HybridityForecast.of(crop, dossiers, Optional.empty()).stream()
        .flatMap(
            forecast ->
                examined.stream()
                    .flatMap(lot -> PredictionAgainstTruth.rows(forecast, lot).stream()))
        .toList();
  }

  private static boolean hasResult(Dossier lot) {
    return lot.facts(PostControlResult.class).stream()
        .anyMatch(result -> result.getNonHybridPlants() != null);
  }

  private static Pedigree noted(Pedigree pedigree, Set<Subject> asked) {
    return new Pedigree() {
      @Override
      public List<Edge> edgesInto(Subject child) {
        asked.add(child);
        return pedigree.edgesInto(child);
      }

      @Override
      public List<Edge> edgesOutOf(Subject parent) {
        asked.add(parent);
        return pedigree.edgesOutOf(parent);
      }
    };
  }
}
