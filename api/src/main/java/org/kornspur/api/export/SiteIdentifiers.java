package org.kornspur.api.export;

import io.quarkus.runtime.StartupEvent;
import io.quarkus.runtime.configuration.ConfigurationException;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Observes;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.kornspur.api.export.identity.Gtin;
import org.kornspur.api.export.identity.Identifiers;
import org.kornspur.api.readmodel.ReadModel;
import org.kornspur.api.readmodel.StandingIndexRow;
import org.kornspur.ingest.contract.Subject;
import org.kornspur.standing.SeedMaterial;

/** How this site names things outside, by its settings and by what its lots are. */
@ApplicationScoped
public class SiteIdentifiers {
  private static final String F1_SEED = "F1_SEED";

  private final ReadModel readModel;
  private final Map<String, Gtin> gtinByHybrid = new TreeMap<>();
  private final Identifiers identifiers;

  /**
   * @throws IllegalArgumentException if a GTIN in the settings is none, or none of this company
   */
  public SiteIdentifiers(ExportSettings settings, ReadModel readModel) {
    this.readModel = readModel;
    settings
        .gtin()
        .forEach((hybrid, digits) -> gtinByHybrid.put(hybrid, checked(hybrid, digits, settings)));
    this.identifiers = new Identifiers(settings.publicAddress(), this::gtinOfLot);
  }

  /** What no paper could be named by is told at the start, and not with the first paper. */
  static void checkSettings(@Observes StartupEvent start, ExportSettings settings) {
    try {
      settings.gtin().forEach((hybrid, digits) -> checked(hybrid, digits, settings));
    } catch (IllegalArgumentException wrong) {
      // Of this one, where it has no cause, Quarkus says the message and nothing else.
      throw new ConfigurationException("Kornspur could not start: " + wrong.getMessage());
    }
  }

  private static Gtin checked(String hybrid, String digits, ExportSettings settings) {
    Gtin gtin;
    try {
      gtin = new Gtin(digits);
    } catch (IllegalArgumentException wrong) {
      throw new IllegalArgumentException(
          "kornspur.gtin of %s: %s; correct it".formatted(hybrid, wrong.getMessage()), wrong);
    }
    settings
        .gs1CompanyPrefix()
        .filter(prefix -> !gtin.isUnder(prefix))
        .ifPresent(
            prefix -> {
              throw new IllegalArgumentException(
                  "kornspur.gtin of %s is %s and not under the company prefix %s; correct one of them"
                      .formatted(hybrid, digits, prefix));
            });
    return gtin;
  }

  public Identifiers identifiers() {
    return identifiers;
  }

  /** Id of the enterprise that a lot belongs to; empty where no fact says so. */
  Optional<String> holderOfLot(String lotId) {
    return readModel.standings().row(Subject.lot(lotId)).flatMap(StandingIndexRow::holder);
  }

  /** GTIN of a lot: that of its hybrid, where it is F1 seed. */
  public Optional<Gtin> gtinOfLot(String lotId) {
    if (gtinByHybrid.isEmpty()) {
      return Optional.empty();
    }
    return readModel
        .standings()
        .row(Subject.lot(lotId))
        .flatMap(StandingIndexRow::material)
        .filter(material -> material.getKind().equals(F1_SEED))
        .map(SeedMaterial::getHybridId)
        .map(gtinByHybrid::get);
  }
}
