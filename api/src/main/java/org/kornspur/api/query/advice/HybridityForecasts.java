package org.kornspur.api.query.advice;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import java.util.function.Function;
import org.kornspur.api.kafka.ProcessorsClient;
import org.kornspur.api.query.VisibleData;
import org.kornspur.api.readmodel.SeasonFilter;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.processors.advice.HybridityForecast;
import org.kornspur.processors.dossier.Dossier;
import org.kornspur.processors.ground.Wind;
import org.kornspur.processors.pedigree.Pedigree;

/** Forecasts of hybridity, and what was found of the harvests. */
@ApplicationScoped
public class HybridityForecasts {
  static final int MOST_CROPS = 500;

  @Inject ProcessorsClient processors;
  @Inject VisibleData data;
  @Inject CalibrationKeeper kept;

  /**
   * The forecast of a crop; empty where it is not a mixture sown for F1 seed.
   *
   * @param wind a prevailing wind that the caller assumes
   */
  public Optional<HybridityForecast> forecast(Dossier crop, Optional<Wind> wind) {
    return HybridityForecast.of(crop, dossiers(), wind);
  }

  /**
   * All F1 crops that match whose harvests have results. It is kept of all; for who sees a part of
   * the data, that part is calculated.
   */
  public CalibrationIndex.Shown calibration(SeasonFilter filter) {
    if (!data.isWhole()) {
      return calculated(filter);
    }
    return filter.isOfHybridAlone()
        ? kept.of(filter.hybridId())
        : kept.of(crop -> matches(crop, filter));
  }

  private boolean matches(Subject crop, SeasonFilter filter) {
    return data.row(crop).filter(filter::matches).isPresent();
  }

  private CalibrationIndex.Shown calculated(SeasonFilter filter) {
    SortedMap<Subject, String> crops = data.f1Crops();
    crops.keySet().removeIf(crop -> !matches(crop, filter));
    Function<Subject, Dossier> dossiers = dossiers();
    Pedigree pedigree = data.pedigree();
    CalibrationIndex found = new CalibrationIndex();
    crops.entrySet().stream()
        .limit(MOST_CROPS)
        .map(crop -> CropCalibration.of(crop.getKey(), crop.getValue(), pedigree, dossiers))
        .forEach(found::put);
    CalibrationIndex.Shown shown = found.of(Optional.empty());
    return crops.size() > MOST_CROPS ? shown.incomplete() : shown;
  }

  /** Asks for each dossier once in a request; a forecast rests on neighbours of others too. */
  private Function<Subject, Dossier> dossiers() {
    Map<Subject, Dossier> asked = new HashMap<>();
    return subject -> asked.computeIfAbsent(subject, processors::dossier);
  }
}
