package org.kornspur.api.query.advice;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedSet;
import java.util.TreeSet;
import java.util.function.Function;
import org.kornspur.api.kafka.ProcessorsClient;
import org.kornspur.api.query.VisibleData;
import org.kornspur.api.readmodel.StandingRow;
import org.kornspur.contract.PostControlResult;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.advice.HarvestedLots;
import org.kornspur.processors.advice.HybridityAdvice;
import org.kornspur.processors.advice.PredictionAgainstTruth;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.dossier.Material;
import org.kornspur.processors.ground.Wind;
import org.kornspur.processors.pedigree.Pedigree;

/** Puts together what forecasts of hybridity take, and what was found of the harvests. */
@ApplicationScoped
public class HybridityForecasts {
  static final int MOST_CROPS = 500;

  @Inject ProcessorsClient processors;
  @Inject VisibleData data;

  /** Forecasts beside results, and what could not be held against each other. */
  record Calibration(
      PredictionAgainstTruth truth, SortedSet<Subject> mixedLots, int crops, boolean complete) {}

  /**
   * The forecast of a crop; empty where it is not a mixture sown for F1 seed.
   *
   * @param wind a prevailing wind that the caller assumes
   */
  public Optional<HybridityAdvice> forecast(Dossier crop, Optional<Wind> wind) {
    return HybridityAdvice.of(crop, dossiers(), wind);
  }

  /** All F1 crops of a hybrid, or of all, whose harvests have results. */
  public Calibration calibration(Optional<String> hybridId) {
    List<Subject> crops = f1Crops(hybridId);
    List<Subject> lookedAt = crops.subList(0, Math.min(crops.size(), MOST_CROPS));
    Function<Subject, Dossier> dossiers = dossiers();
    Pedigree pedigree = data.pedigree();
    List<PredictionAgainstTruth.Row> rows = new ArrayList<>();
    SortedSet<Subject> mixedLots = new TreeSet<>();
    boolean all = lookedAt.size() == crops.size();
    for (Subject crop : lookedAt) {
      HarvestedLots lots = HarvestedLots.of(pedigree, crop);
      lots.mixed().stream().filter(lot -> hasResult(dossiers.apply(lot))).forEach(mixedLots::add);
      List<Dossier> examined =
          lots.ofThisCropAlone().stream()
              .map(dossiers)
              .filter(HybridityForecasts::hasResult)
              .toList();
      if (!examined.isEmpty()) {
        try {
          rows.addAll(rows(crop, examined, dossiers));
        } catch (IllegalArgumentException noForecast) {
          // one crop whose facts make no forecast hides none of the others
          all = false;
        }
      }
    }
    return new Calibration(PredictionAgainstTruth.of(rows), mixedLots, lookedAt.size(), all);
  }

  private static List<PredictionAgainstTruth.Row> rows(
      Subject crop, List<Dossier> examined, Function<Subject, Dossier> dossiers) {
    return HybridityAdvice.of(dossiers.apply(crop), dossiers, Optional.empty()).stream()
        .flatMap(
            forecast ->
                examined.stream()
                    .flatMap(lot -> PredictionAgainstTruth.rows(forecast, lot).stream()))
        .toList();
  }

  private List<Subject> f1Crops(Optional<String> hybridId) {
    return data
        .matching(row -> row.subject().kind() == Subject.Kind.CROP && isF1(row, hybridId))
        .stream()
        .map(StandingRow::subject)
        .toList();
  }

  private static boolean isF1(StandingRow row, Optional<String> hybridId) {
    return row.material()
        .filter(material -> material.getKind().equals(Material.Kind.F1_SEED.name()))
        .filter(material -> hybridId.map(material.getHybridId()::equals).orElse(true))
        .isPresent();
  }

  private static boolean hasResult(Dossier lot) {
    return lot.facts(PostControlResult.class).stream()
        .anyMatch(result -> result.getNonHybridPlants() != null);
  }

  /** Asks for each dossier once in a request; a forecast rests on neighbours of others too. */
  private Function<Subject, Dossier> dossiers() {
    Map<Subject, Dossier> asked = new HashMap<>();
    return subject -> asked.computeIfAbsent(subject, processors::wholeDossier);
  }
}
