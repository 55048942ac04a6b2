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
   * All F1 crops of a hybrid, or of all, whose harvests have results. It is kept of all; for who
   * sees a part of the data, that part is calculated.
   */
  public CalibrationIndex.Shown calibration(Optional<String> hybridId) {
    return data.isWhole() ? kept.of(hybridId) : calculated(hybridId);
  }

  private CalibrationIndex.Shown calculated(Optional<String> hybridId) {
    SortedMap<Subject, String> crops = data.f1Crops();
    hybridId.ifPresent(asked -> crops.values().removeIf(hybrid -> !hybrid.equals(asked)));
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
